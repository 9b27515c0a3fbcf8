//! Parts that fail in flight: a segment that stops pulling.

use super::super::course::Loss;
use super::super::fault::{Part, When};
use super::super::{Jump, SwingError};
use super::motion::Motion;
use super::run::Outcome;
use super::watch::Best;
use crate::quantity::check::non_negative;

/// When each part fails. Peaks are those of the jump in which nothing fails.
pub(super) fn faults(
    jump: &Jump,
    fly: impl Fn() -> Result<Outcome, SwingError>,
) -> Result<Vec<(f64, Loss)>, SwingError> {
    let mut intact: Option<Outcome> = None;
    let mut faults = Vec::new();
    for (i, fault) in jump.faults.iter().enumerate() {
        let key = format!("faults[{i}]");
        let index = fault.part.index(jump, &key)?;
        if fault.when == When::BeforeExit {
            let problem =
                "the full model has no parts that are missing before the jump: leave them out";
            return Err(SwingError::contradiction(&format!("{key}.when"), problem));
        }
        let at_s = if let When::Time { at } = fault.when {
            non_negative(&format!("{key}.when.at"), at)?
        } else {
            let out = match intact {
                Some(out) => out,
                None => fly()?,
            };
            let best =
                peak(&out, fault.when, &fault.part, index, [jump.lines.len(), jump.ropes.len()]);
            intact = Some(out);
            best.t_s
        };
        faults.push((at_s, Loss { part: fault.part.clone(), index }));
    }
    faults.sort_by(|a, b| a.0.total_cmp(&b.0));
    Ok(faults)
}

fn peak(out: &Outcome, when: When, part: &Part, index: usize, [lines, ropes]: [usize; 2]) -> Best {
    let chains = &out.watch.chains;
    match (when, part) {
        (When::PartPeak, Part::Rope { .. }) => chains[2 * lines + index][0],
        (When::PartPeak, Part::Stop { .. }) => chains[2 * lines + ropes + index][0],
        (When::PartPeak, Part::NearAnchor { .. }) => chains[2 * index][0],
        (When::PartPeak, Part::FarAnchor { .. }) => chains[2 * index + 1][0],
        (When::PartPeak, Part::Line { .. }) => {
            let [near, far] = [chains[2 * index][1], chains[2 * index + 1][1]];
            if near.value > far.value { near } else { far }
        }
        (When::BodyPeak | When::Time { .. } | When::BeforeExit, _) => out.watch.resultant,
    }
}

impl Motion {
    /// Breaks a part, and gives the energy that was stored where it broke, J. What was tied to it flies on:
    /// a rope breaks at the ring, a line at its anchor or on both sides of the ring, Eq. (F25).
    pub fn fail(&mut self, loss: &Loss, [lines, ropes]: [usize; 2]) -> f64 {
        let (near, far) = (2 * loss.index, 2 * loss.index + 1);
        let broken = match loss.part {
            Part::Rope { .. } => vec![(2 * lines + loss.index, false)],
            Part::Stop { .. } => vec![(2 * lines + ropes + loss.index, false)],
            Part::NearAnchor { .. } => vec![(near, false)],
            Part::FarAnchor { .. } => vec![(far, false)],
            Part::Line { .. } => vec![(near, true), (far, true)],
        };
        let mut stored_j = 0.0;
        for (chain, at_end) in broken {
            let chain = &self.grid.chains[chain];
            let segment = if at_end { chain.last_segment() } else { chain.first };
            stored_j += self.grid.segment_j(segment, self.grid.curve(chain));
            self.grid.unload(segment);
        }
        for slider in self.sliders.iter_mut().filter(|slider| slider.is_of(near)) {
            match loss.part {
                Part::Rope { .. } | Part::Stop { .. } => {}
                Part::NearAnchor { .. } => slider.cut(&self.grid, 0),
                Part::FarAnchor { .. } => slider.cut(&self.grid, 1),
                Part::Line { .. } => slider.lose(),
            }
        }
        self.gather();
        stored_j
    }
}
