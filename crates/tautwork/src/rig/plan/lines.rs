//! The lines of the document with their lengths found.

use super::gear::{mass_of, stretch};
use super::result::LinePlan;
use crate::line::{
    BundleLine, ElasticLine, LineEnd, LineError, bundle_rest_length_for_tension,
    rest_length_for_sag, rest_length_for_tension,
};
use crate::material::Stretch;
use crate::quantity::{Force, GRAVITY, Length, LineLoad, Mass, Quantity, print};
use crate::rig::{CordageEntry, End, LineEntry, Rig, RigError, TensionState};

/// A line across the gap.
#[derive(Debug, Clone)]
pub(super) struct Span<'a> {
    pub entry: &'a LineEntry,
    pub cordage: &'a CordageEntry,
    pub stretch: Stretch,
    pub near: [Length; 3],
    pub far: [Length; 3],
    pub rest_length: Length,
    /// How the rest length was found.
    pub from: String,
}

impl Span<'_> {
    /// Fraction of the rest length from the near end to the ring.
    fn ring_at(&self) -> f64 {
        self.entry.ring_at.map_or(0.5, Quantity::si)
    }

    pub fn near_length(&self) -> Length {
        Length::from_si(self.rest_length.si() * self.ring_at())
    }

    pub fn far_length(&self) -> Length {
        Length::from_si(self.rest_length.si() * (1.0 - self.ring_at()))
    }

    pub fn weight(&self) -> LineLoad {
        LineLoad::from_si(self.cordage.linear_density.si() * GRAVITY)
    }

    pub fn mass_kg(&self) -> f64 {
        mass_of(self.cordage.linear_density, self.rest_length)
    }

    /// From the near anchor to the far one.
    pub fn chord(&self) -> [Length; 3] {
        self.chord_m().map(Length::from_si)
    }

    fn chord_m(&self) -> [f64; 3] {
        [0, 1, 2].map(|i| self.far[i].si() - self.near[i].si())
    }

    /// The line alone, in its own vertical plane.
    fn alone(&self) -> ElasticLine {
        let [x, y, z] = self.chord_m();
        ElasticLine {
            span: Length::from_si(x.hypot(y)),
            rise: Length::from_si(z),
            rest_length: self.rest_length,
            weight: self.weight(),
            stretch: self.stretch.clone(),
        }
    }

    pub fn bundle_line(&self) -> BundleLine {
        BundleLine {
            name: self.entry.name.clone(),
            near: self.near,
            far: self.far,
            near_length: self.near_length(),
            far_length: self.far_length(),
            weight: self.weight(),
            stretch: self.stretch.clone(),
        }
    }

    pub fn plan(&self) -> LinePlan {
        LinePlan {
            name: self.entry.name.clone(),
            chord: Length::from_si(distance_m(&self.near, &self.far)),
            rest_length: self.rest_length,
            near_length: self.near_length(),
            mass: Mass::from_si(self.mass_kg()),
            from: self.from.clone(),
        }
    }
}

/// Lines as the bundle model takes them.
pub(super) fn bundle<'a>(spans: impl IntoIterator<Item = &'a Span<'a>>) -> Vec<BundleLine> {
    spans.into_iter().map(Span::bundle_line).collect()
}

/// Every line of the document with its rest length.
pub(super) fn spans(rig: &Rig) -> Result<Vec<Span<'_>>, RigError> {
    let mut spans = Vec::new();
    for entry in &rig.line {
        let cordage = rig.cordage_named(&entry.cordage)?;
        let mut span = Span {
            entry,
            cordage,
            stretch: stretch(&cordage.stretch)?,
            near: rig.anchor_at(&entry.from)?,
            far: rig.anchor_at(&entry.to)?,
            rest_length: Length::from_si(1.0),
            from: String::new(),
        };
        let fail = |e: LineError| RigError::unsolved(&format!("line {}", entry.name), &e);
        if let Some(length) = entry.rest_length {
            span.rest_length = length;
            "its length".clone_into(&mut span.from);
        } else if let Some(sag) = entry.sag {
            span.rest_length = rest_length_for_sag(&span.alone(), sag).map_err(fail)?;
            span.from = format!("{} of sag, alone", print(sag));
        } else if let Some(tension) = entry.tension {
            // For a tension with everything on this is only where the search starts.
            let end = line_end(entry);
            span.rest_length =
                rest_length_for_tension(&span.alone(), tension, end).map_err(fail)?;
            span.from = format!("{} at the {} end, alone", print(tension), end_name(end));
        }
        spans.push(span);
    }
    rigged(rig, &mut spans)?;
    Ok(spans)
}

/// Rounds over lines whose tension is wanted with everything on; each changes the others a little.
const ROUNDS: usize = 40;

/// Finds the lengths of the lines whose tension is wanted with every line and the ring on.
fn rigged(rig: &Rig, spans: &mut [Span<'_>]) -> Result<(), RigError> {
    let wanted: Vec<usize> = (0..spans.len())
        .filter(|&i| spans[i].entry.tension_state == Some(TensionState::Rigged))
        .collect();
    let load = ring_weight(rig);
    for round in 0..ROUNDS {
        let mut change = 0.0_f64;
        for &i in &wanted {
            let entry = spans[i].entry;
            let Some(tension) = entry.tension else { continue };
            let end = line_end(entry);
            let lines = bundle(spans.iter());
            let length = bundle_rest_length_for_tension(&lines, &entry.name, tension, end, load)
                .map_err(|e| RigError::unsolved(&format!("line {}", entry.name), &e))?;
            change = change.max((length.si() / spans[i].rest_length.si() - 1.0).abs());
            spans[i].rest_length = length;
            spans[i].from = format!("{} at the {} end, all on", print(tension), end_name(end));
        }
        if change < 1e-10 || (wanted.len() == 1 && round > 0) {
            return Ok(());
        }
    }
    let reason = "the tensions wanted with everything on do not settle against each other";
    Err(RigError::unsolved("lines", &reason))
}

fn line_end(entry: &LineEntry) -> LineEnd {
    match entry.tension_end {
        Some(End::Far) => LineEnd::Far,
        _ => LineEnd::Near,
    }
}

fn end_name(end: LineEnd) -> &'static str {
    match end {
        LineEnd::Near => "near",
        LineEnd::Far => "far",
    }
}

/// Weight of the ring set as a load.
pub(super) fn ring_weight(rig: &Rig) -> [Force; 3] {
    down(rig.ring.mass.si() * GRAVITY)
}

/// Size of a vector, in SI.
pub(super) fn size<Q: Quantity>(v: &[Q; 3]) -> f64 {
    v.iter().map(|x| x.si() * x.si()).sum::<f64>().sqrt()
}

/// Distance of two points, m.
pub(super) fn distance_m(a: &[Length; 3], b: &[Length; 3]) -> f64 {
    size(&[0, 1, 2].map(|i| a[i] - b[i]))
}

/// A load straight down.
pub(super) fn down(force_n: f64) -> [Force; 3] {
    [0.0, 0.0, -force_n].map(Force::from_si)
}

impl Rig {
    /// Master point of an anchor; the document is checked, so it is there.
    pub(super) fn anchor_at(&self, name: &str) -> Result<[Length; 3], RigError> {
        let found = self.anchor.iter().find(|a| a.name == name);
        found
            .map(|a| a.position)
            .ok_or_else(|| RigError::unsolved("anchor", &format!("\"{name}\" is not known")))
    }
}
