//! Follows a rope on and off an edge.

use super::super::flight::Extreme;
use super::super::space::along;
use super::super::{Place, SwingError};
use super::answer::{EdgeTouch, RopeOnEdge, TouchEnd};
use super::case::RopeEdgeCase;
use super::line::{EdgeLine, Over};
use crate::quantity::{Force, Length, Quantity, Time};

/// Halvings that find an instant in an interval.
const HALVINGS: usize = 60;
/// Most changes followed within one interval.
const MOST_CHANGES: usize = 4;

/// When a rope touches an edge along a known motion of its ends, how hard and how far it rubs, Eq. (K1) to (K7).
///
/// # Errors
/// [`SwingError`]: times that do not rise, tracks of another length, values out of range, an edge shorter than 1 mm, a
/// start of which it is not known on which side the rope lies, an end that comes to the edge itself while the rope lies
/// over it, a turn beyond 180°.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadForce, ReadLength, ReadTime, Words};
/// use tautwork::swing::{Place, RockEdge, RopeEdgeCase, Track, rope_on_edge};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // A rope from 4 m over an edge; its lower end goes from 4 m on one side to 4 m on the other, 4 m below.
/// let case = RopeEdgeCase {
///     t_s: vec![0.0, 2.0],
///     anchor: Track::still(at(0.0, 4.0)),
///     body: Track { x_m: vec![4.0, -4.0], y_m: vec![0.0, 0.0], z_m: vec![-4.0, -4.0] },
///     tension_n: vec![1000.0],
///     edge: RockEdge::Corner { at: at(0.0, 0.0) },
///     starts_over: false,
///     mu: 0.0.ratio(),
///     axial_rigidity: None,
/// };
/// let rope = rope_on_edge(&case)?;
/// assert!((rope.first_touch.unwrap().in_seconds() - 1.0).abs() < 1e-9);
/// // It turns by 45° in the end: 2 · 1 kN · sin 22.5°.
/// assert!((rope.force_n[1] - 765.367).abs() < 1e-3 && rope.force_n[0] == 0.0);
/// assert!(rope_on_edge(&RopeEdgeCase { t_s: vec![0.0], ..case }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn rope_on_edge(case: &RopeEdgeCase) -> Result<RopeOnEdge, SwingError> {
    let (line, mu, ea_n) = case.check()?;
    let mut follow =
        Follow { case, line, mu, ea_n, free: 0.0, over: None, out: RopeOnEdge::default() };
    follow.start()?;
    follow.sample(0);
    for k in 0..case.t_s.len() - 1 {
        follow.interval(k)?;
        follow.sample(k + 1);
    }
    if follow.over.is_some()
        && let Some(last) = case.t_s.last()
    {
        follow.end(*last, TouchEnd::Last);
    }
    follow.out.first_touch = follow.out.touches.first().map(|touch| touch.begins);
    Ok(follow.out)
}

/// A rope over the edge, and how much of it is behind the edge, Eq. (K7).
#[derive(Debug, Clone, Copy)]
struct Lies {
    over: Over,
    sigma_m: f64,
}

#[derive(Debug)]
struct Follow<'a> {
    case: &'a RopeEdgeCase,
    line: EdgeLine,
    mu: f64,
    ea_n: f64,
    /// Sign of the side on which the rope is free; zero while that is not known.
    free: f64,
    over: Option<Lies>,
    out: RopeOnEdge,
}

impl Follow<'_> {
    fn start(&mut self) -> Result<(), SwingError> {
        let side = self.line.side(self.ends(0, 0.0));
        let wrong = |problem: &str| Err(SwingError::contradiction("starts_over", problem));
        if self.case.starts_over {
            if side == 0.0 {
                return wrong("the rope starts straight: on which side it lies is not known");
            }
            let lies = self.lies(0, 0.0)?;
            if !self.line.holds(lies.over.s_m) {
                return wrong("the rope starts beyond an end of the edge");
            }
            self.free = -side.signum();
            self.begin(self.case.t_s[0], lies);
            return Ok(());
        }
        if side != 0.0 {
            self.free = side.signum();
        } else if self.line.between(self.ends(0, 0.0))
            && self.line.holds(self.lies(0, 0.0)?.over.s_m)
        {
            return wrong("the rope starts on the edge: on which side it is free is not known");
        }
        Ok(())
    }

    /// From sample k to the next.
    fn interval(&mut self, k: usize) -> Result<(), SwingError> {
        let mut share = 0.0;
        for _ in 0..MOST_CHANGES {
            let end = self.line.side(self.ends(k, 1.0));
            if self.free == 0.0 && end != 0.0 {
                self.free = end.signum();
            }
            let change =
                if self.over.is_some() { self.leaves(k, share)? } else { self.meets(k, share)? };
            let Some(at) = change else { break };
            share = at;
        }
        if self.over.is_some() {
            let lies = self.lies(k, 1.0)?;
            self.rub(k, lies);
        }
        Ok(())
    }

    /// Where a free rope comes to the line of the edge, Eq. (K2).
    fn meets(&mut self, k: usize, from: f64) -> Result<Option<f64>, SwingError> {
        let free = self.free;
        let past = |follow: &Self, share: f64| free * follow.line.side(follow.ends(k, share)) < 0.0;
        let Some(at) = first(from, |share| past(self, share)) else { return Ok(None) };
        let ends = self.ends(k, at);
        if self.line.between(ends) {
            let lies = self.lies(k, at)?;
            if self.line.holds(lies.over.s_m) {
                self.begin(self.time_s(k, at), lies);
                return Ok(Some(at));
            }
        }
        self.free = -free;
        Ok(Some(at))
    }

    /// Where a rope over the edge lifts or slips off, Eq. (K3).
    fn leaves(&mut self, k: usize, from: f64) -> Result<Option<f64>, SwingError> {
        let free = self.free;
        let lifts = first(from, |share| free * self.line.side(self.ends(k, share)) >= 0.0);
        let slips = first(from, |share| {
            self.line.over(self.ends(k, share)).is_some_and(|over| !self.line.holds(over.s_m))
        });
        let (at, ending) = match (lifts, slips) {
            (None, None) => return Ok(None),
            (Some(lift), Some(slip)) if slip < lift => (slip, TouchEnd::SlipsOff),
            (None, Some(slip)) => (slip, TouchEnd::SlipsOff),
            (Some(lift), _) => (lift, TouchEnd::LiftsOff),
        };
        let lies = self.lies(k, at)?;
        if ending == TouchEnd::LiftsOff && !self.line.between(self.ends(k, at)) {
            let problem = format!("the rope turns by more than 180° at {} s", self.time_s(k, at));
            return Err(SwingError::contradiction("body", &problem));
        }
        self.rub(k, lies);
        self.end(self.time_s(k, at), ending);
        if ending == TouchEnd::SlipsOff {
            self.free = -free;
        }
        Ok(Some(at))
    }

    fn begin(&mut self, t_s: f64, lies: Lies) {
        self.over = Some(lies);
        let begins = Time::from_si(t_s);
        let place = Place::of_m(lies.over.at_m);
        self.out.touches.push(EdgeTouch { begins, place, ends: begins, ending: TouchEnd::Last });
    }

    fn end(&mut self, t_s: f64, ending: TouchEnd) {
        self.over = None;
        if let Some(touch) = self.out.touches.last_mut() {
            (touch.ends, touch.ending) = (Time::from_si(t_s), ending);
        }
    }

    /// Takes the way on the edge since the last look, Eq. (K7).
    fn rub(&mut self, k: usize, now: Lies) {
        let tense = self.case.tension_at_n(k) > 0.0 || self.case.tension_at_n(k + 1) > 0.0;
        if let Some(before) = self.over.replace(now)
            && tense
        {
            let out = &mut self.out;
            let by_m = [now.sigma_m - before.sigma_m, now.over.s_m - before.over.s_m].map(f64::abs);
            let sums = [&mut out.rub_along_rope, &mut out.rub_along_edge, &mut out.rub];
            for (sum, by_m) in sums.into_iter().zip([by_m[0], by_m[1], by_m[0].hypot(by_m[1])]) {
                *sum = Length::from_si(sum.si() + by_m);
            }
        }
    }

    /// Takes sample k into the series.
    fn sample(&mut self, k: usize) {
        let time = Time::from_si(self.case.t_s[k]);
        let turn_rad = self.over.map_or(0.0, |lies| lies.over.turn_rad);
        let tension_n = if self.over.is_some() { self.case.tension_at_n(k) } else { 0.0 };
        let ratio = (self.mu * turn_rad).exp();
        // Eq. (K6) without the difference of nearly equal squares.
        let bow = 2.0 * (0.5 * turn_rad).sin();
        let most_n = tension_n * (ratio - 1.0).hypot(bow * ratio.sqrt());
        if let Some(lies) = self.over {
            let place = Place::of_m(lies.over.at_m);
            let turn = crate::quantity::Angle::from_si(turn_rad);
            if self.out.greatest_turn.as_ref().is_none_or(|most| turn > most.value) {
                self.out.greatest_turn = Some(Extreme { value: turn, time, place });
            }
            let force = Force::from_si(most_n);
            if self.out.greatest_force.as_ref().is_none_or(|most| force > most.value) {
                self.out.greatest_force = Some(Extreme { value: force, time, place });
            }
        }
        self.out.turn_rad.push(turn_rad);
        self.out.force_n.push(tension_n * bow);
        self.out.force_most_n.push(most_n);
        self.out.behind_low_n.push(tension_n / ratio);
        self.out.behind_high_n.push(tension_n * ratio);
        self.out.rub_m.push(self.out.rub.si());
    }

    fn lies(&self, k: usize, share: f64) -> Result<Lies, SwingError> {
        let Some(over) = self.line.over(self.ends(k, share)) else {
            let problem = format!(
                "an end of the rope is on the line of the edge at {} s",
                self.time_s(k, share)
            );
            return Err(SwingError::contradiction("edge", &problem));
        };
        let tension_n = at_share(k, share, |k| self.case.tension_at_n(k));
        Ok(Lies { over, sigma_m: over.behind_m / (1.0 + tension_n / self.ea_n) })
    }

    fn ends(&self, k: usize, share: f64) -> [[f64; 3]; 2] {
        [&self.case.anchor, &self.case.body].map(|track| match share {
            0.0 => track.at_m(k),
            1.0 => track.at_m(k + 1),
            share => along(track.at_m(k), track.at_m(k + 1), share),
        })
    }

    fn time_s(&self, k: usize, share: f64) -> f64 {
        at_share(k, share, |k| self.case.t_s[k])
    }
}

/// First share at which a condition holds that does not hold before, if it holds at the end.
fn first(from: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    if !holds(1.0) {
        return None;
    }
    let (mut no, mut yes) = (from, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (no + yes);
        if holds(middle) { yes = middle } else { no = middle }
    }
    Some(yes)
}

/// A value between sample k and the next.
fn at_share(k: usize, share: f64, at: impl Fn(usize) -> f64) -> f64 {
    match share {
        0.0 => at(k),
        1.0 => at(k + 1),
        share => (1.0 - share) * at(k) + share * at(k + 1),
    }
}
