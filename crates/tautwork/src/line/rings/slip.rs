//! How a ring slides along its lines until friction or a stop holds it: Eq. (R2) to (R6).

use nalgebra::{Matrix3, Vector3};

use super::hold::{RingHold, RingHoldKind, RingHoldState, RingLine, RingsState};
use crate::line::BundleLine;
use crate::line::LineError;
use crate::line::bundle::{Bundle, rows};
use crate::line::error::all_finite;
use crate::line::inverse::try_root;
use crate::quantity::check::{between, non_negative};
use crate::quantity::{Angle, Force, Length, Quantity};

/// Which equilibrium of all that friction allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aim {
    /// The first that the ring slides into from where it is.
    Here,
    /// The end of the range on the side of the near anchors.
    Near,
    /// The end on the side of the far anchors.
    Far,
}

/// A line on which the ring slides.
#[derive(Debug, Clone, Copy)]
struct Track {
    line: usize,
    friction: f64,
    total_m: f64,
    low_m: f64,
    high_m: f64,
}

/// A bundle with the ring sliding on some of its lines.
pub(super) struct Rings {
    pub bundle: Bundle,
    tracks: Vec<Track>,
    load_n: Vector3<f64>,
}

/// Rounds over the sliding lines: each line in turn, the others held.
const ROUNDS: u32 = 500;
/// Change of a split, over the length of the line, that ends the rounds.
const SETTLED: f64 = 1e-9;
/// Excess of ln(Tₙ / T_f) that does not yet make the ring slide: ten times the noise of a balanced ring.
const HELD: f64 = 1e-9;
/// A ring cannot come nearer to an anchor than this part of the line.
const NEAREST: f64 = 1e-6;
/// Room around the limit of Eq. (R2), in ln(Tₙ / T_f), within which friction counts as used up.
const AT_LIMIT: f64 = 1e-6;

impl Rings {
    pub fn new(lines: &[RingLine]) -> Result<Self, LineError> {
        let plain: Vec<BundleLine> = lines.iter().map(|l| l.line.clone()).collect();
        let bundle = Bundle::new(&plain)?;
        let mut tracks = Vec::new();
        for (i, RingLine { line, hold }) in lines.iter().enumerate() {
            let RingHold::Slides { friction, from, to } = hold else { continue };
            let within = |e: crate::quantity::Invalid| e.within(&format!("lines[{i}].hold"));
            let total_m = line.near_length.si() + line.far_length.si();
            let ends = [NEAREST, 1.0 - NEAREST].map(|share| Length::from_si(share * total_m));
            let stop = |name, given: Option<Length>, end: Length, low, high| match given {
                Some(at) => between(name, at, low, high).map_err(within),
                None => Ok(end.si()),
            };
            let zero = Length::from_si(0.0);
            let low_m = stop("from", *from, ends[0], zero, line.near_length)?.max(ends[0].si());
            let whole = Length::from_si(total_m);
            let high_m = stop("to", *to, ends[1], line.near_length, whole)?.min(ends[1].si());
            let friction = non_negative("friction", *friction).map_err(within)?;
            tracks.push(Track { line: i, friction, total_m, low_m, high_m });
        }
        Ok(Self { bundle, tracks, load_n: Vector3::zeros() })
    }

    /// Slides the ring on every line until nothing slides any more. Returns the rounds.
    pub fn settle(&mut self, load_n: Vector3<f64>, aim: Aim) -> Result<u32, LineError> {
        self.load_n = load_n;
        self.bundle.settle(load_n)?;
        for round in 1..=ROUNDS {
            let mut moved = 0.0_f64;
            for i in 0..self.tracks.len() {
                moved = moved.max(self.slide(self.tracks[i], aim)?);
            }
            if moved <= SETTLED || self.tracks.len() == 1 {
                return Ok(round);
            }
        }
        Err(LineError::NotConverged { residual: SETTLED, unit: "of the line", iterations: ROUNDS })
    }

    /// Slides the ring on one line, the splits of the others held. Returns how far, over its length.
    fn slide(&mut self, track: Track, aim: Aim) -> Result<f64, LineError> {
        let from_m = self.bundle.near_rest_m(track.line);
        let (ratio, room) = (self.ln_ratio(track.line), self.room(track));
        let limit = match aim {
            Aim::Near => 1.0,
            Aim::Far => -1.0,
            Aim::Here if ratio > room + HELD => 1.0,
            Aim::Here if ratio < -room - HELD => -1.0,
            Aim::Here => return Ok(0.0),
        };
        let to_m = self.slide_to(track, from_m, limit)?;
        Ok((to_m - from_m).abs() / track.total_m)
    }

    /// ln(Tₙ / T_f); zero where both sides hang without tension.
    fn ln_ratio(&self, line: usize) -> f64 {
        let (near, far) = self.bundle.ring_tensions_n(line);
        if near == far {
            return 0.0;
        }
        (near / far).ln().clamp(-700.0, 700.0)
    }

    fn room(&self, track: Track) -> f64 {
        track.friction * self.bundle.wrap_rad(track.line)
    }

    /// The split at which ln(Tₙ / T_f) is `limit` times the room of friction, nearest to `from_m` on the
    /// way the ring slides; a stop if there is none before it.
    fn slide_to(&mut self, track: Track, from_m: f64, limit: f64) -> Result<f64, LineError> {
        let first = self.gap(track, from_m, limit)?;
        if first == 0.0 {
            return Ok(from_m);
        }
        let end_m = if first > 0.0 { track.high_m } else { track.low_m };
        let (mut last_m, mut step_m) = (from_m, 1e-3 * track.total_m);
        while last_m != end_m {
            let next_m = if first > 0.0 {
                (last_m + step_m).min(end_m)
            } else {
                (last_m - step_m).max(end_m)
            };
            let gap = self.gap(track, next_m, limit)?;
            if gap == 0.0 {
                return Ok(next_m);
            }
            if (gap > 0.0) != (first > 0.0) {
                return self.root_between(track, limit, last_m, next_m);
            }
            (last_m, step_m) = (next_m, 2.0 * step_m);
        }
        self.gap(track, end_m, limit)?;
        Ok(end_m)
    }

    fn root_between(
        &mut self,
        track: Track,
        limit: f64,
        a_m: f64,
        b_m: f64,
    ) -> Result<f64, LineError> {
        let width_m = b_m - a_m;
        let share =
            try_root(0.0, 1.0, |share| self.gap(track, a_m + share * width_m, limit))?.ok_or(
                LineError::NotConverged { residual: width_m.abs(), unit: "m", iterations: 200 },
            )?;
        let at_m = a_m + share * width_m;
        self.gap(track, at_m, limit)?;
        Ok(at_m)
    }

    /// ln(Tₙ / T_f) less `limit` times the room of friction, the ring at rest with this split: falls as
    /// the near side gets longer.
    fn gap(&mut self, track: Track, near_m: f64, limit: f64) -> Result<f64, LineError> {
        self.bundle.split_at(track.line, near_m, track.total_m);
        self.bundle.settle(self.load_n)?;
        Ok(self.ln_ratio(track.line) - limit * self.room(track))
    }

    pub fn state(&mut self, rounds: u32) -> Result<RingsState, LineError> {
        let load = [self.load_n.x, self.load_n.y, self.load_n.z].map(Force::from_si);
        let bundle = self.bundle.solve(load)?;
        let holds = (0..bundle.lines.len())
            .map(|line| self.hold_state(line, bundle.lines[line].name.clone()))
            .collect();
        let k = self.stiffness_sliding();
        all_finite(k.as_slice(), "stiffness_sliding")?;
        Ok(RingsState { bundle, holds, stiffness_sliding: rows(&k), rounds })
    }

    fn hold_state(&self, line: usize, name: String) -> RingHoldState {
        let near_m = self.bundle.near_rest_m(line);
        let track = self.tracks.iter().find(|t| t.line == line);
        let (kind, stop_n) = track.map_or((RingHoldKind::Tied, 0.0), |t| self.hold(*t, near_m));
        RingHoldState {
            name,
            near_length: Length::from_si(near_m),
            kind,
            wrap: Angle::from_si(self.bundle.wrap_rad(line)),
            stop_force: Force::from_si(stop_n),
        }
    }

    fn hold(&self, track: Track, near_m: f64) -> (RingHoldKind, f64) {
        let (ratio, room) = (self.ln_ratio(track.line), self.room(track));
        let (near, far) = self.bundle.ring_tensions_n(track.line);
        if near_m == track.low_m && ratio < -room {
            (RingHoldKind::NearStop, far * (-room).exp() - near)
        } else if near_m == track.high_m && ratio > room {
            (RingHoldKind::FarStop, near * (-room).exp() - far)
        } else if ratio.abs() < room - AT_LIMIT {
            (RingHoldKind::Friction, 0.0)
        } else {
            (RingHoldKind::Limit, 0.0)
        }
    }

    /// Eq. (R6).
    fn stiffness_sliding(&self) -> Matrix3<f64> {
        let mut k = self.bundle.stiffness_n_per_m();
        for track in &self.tracks {
            let near_m = self.bundle.near_rest_m(track.line);
            let (kind, _) = self.hold(*track, near_m);
            if matches!(kind, RingHoldKind::NearStop | RingHoldKind::FarStop) {
                continue;
            }
            // A metre that passes the ring leaves the far side and joins the near one.
            let [near, far] = self.bundle.slides(track.line);
            let force_by_a = near.force_by_length - far.force_by_length;
            let gap_by_a = near.tension_by_length + far.tension_by_length;
            let gap_by_ring = near.tension_by_ring - far.tension_by_ring;
            if gap_by_a < 0.0 {
                k += force_by_a * gap_by_ring.transpose() / gap_by_a;
            }
        }
        k
    }
}
