//! Energy balance of walker, leash and line.

use serde::{Deserialize, Serialize};

use super::super::{FallError, FallNote};
use super::press::Press;
use crate::line::{Chain, LineError, LineNote, try_root};
use crate::material::{Law, Stretch};
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Energy, Force, GRAVITY, Length, Mass, Quantity, Ratio, Text, Time};

/// Doublings of the weight that the force may reach.
const DOUBLINGS: usize = 40;

/// A fall on a leash from a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeashFall {
    /// The line without the walker; loads that stay on it, such as rings, may be among its loads.
    pub line: Chain,
    /// Rest length of line from its near end to the ring of the leash, where the walker stands.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Mass of the walker.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Rest length of the leash from the ring to the tie-in.
    #[serde(with = "Text::<Length>")]
    pub leash: Length,
    /// Its stretch.
    pub leash_stretch: Stretch,
    /// Height of the tie-in above the line when the fall begins: about 1 m standing, zero sitting.
    #[serde(with = "Text::<Length>")]
    pub tie_in_above: Length,
    /// How far the lowest part of the body hangs below the tie-in; zero if left out.
    #[serde(with = "Text::<Length>", default = "none")]
    pub body_below: Length,
}

fn none() -> Length {
    Length::from_si(0.0)
}

/// How a fall on a leash ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeashArrest {
    /// Force in the leash at the lowest point.
    #[serde(with = "Text::<Force>")]
    pub leash_force: Force,
    /// Strain of the leash there.
    #[serde(with = "Text::<Ratio>")]
    pub leash_strain: Ratio,
    /// How far the walker standing on it presses the line down.
    #[serde(with = "Text::<Length>")]
    pub standing_depth: Length,
    /// Way that the walker falls before the leash takes load, Eq. (L1).
    #[serde(with = "Text::<Length>")]
    pub free_fall: Length,
    /// Force in the leash when the fall begins, Eq. (L1); zero where there is a free fall.
    #[serde(with = "Text::<Force>")]
    pub start_force: Force,
    /// How far the ring is pulled below its place on the line without a walker.
    #[serde(with = "Text::<Length>")]
    pub ring_depth: Length,
    /// Lowest point of the body below the line where the walker stood, Eq. (L4).
    #[serde(with = "Text::<Length>")]
    pub lowest_below_line: Length,
    /// Whole drop of the tie-in.
    #[serde(with = "Text::<Length>")]
    pub drop: Length,
    /// Weight times drop, which line and leash take up.
    #[serde(with = "Text::<Energy>")]
    pub energy: Energy,
    /// The part of it that the line takes up.
    #[serde(with = "Text::<Energy>")]
    pub line_energy: Energy,
    /// Tension at the near end of the line while the walker stands on it.
    #[serde(with = "Text::<Force>")]
    pub standing_tension_near: Force,
    /// Tension at the near end of the line at the lowest point.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at its far end.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Time in which a wave runs along the longer side of the line and back, Eq. (L5).
    #[serde(with = "Text::<Time>")]
    pub wave_time: Time,
    /// Time from first load to peak, estimated by Eq. (L6).
    #[serde(with = "Text::<Time>")]
    pub rise_time: Time,
    /// What is missing in the energy balance, errors of integration included, as part of the energy.
    pub residual: f64,
    /// Equilibria of the line solved.
    pub solves: usize,
    /// What to know about the fall.
    pub notes: Vec<FallNote>,
    /// What to know about the line at the lowest point.
    pub line_notes: Vec<LineNote>,
}

/// Catches a walker on a leash from a line, Eqs. (L1) to (L4).
///
/// # Errors
/// [`FallError::Line`] if the line has no solution; [`FallError::Invalid`] unless mass and leash are above
/// zero, the tie-in at most the length of the leash above the line, the body zero or more, and the leash
/// longer than what the rising line takes up; [`FallError::NotConverged`] with its residual;
/// [`FallError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::fall::{LeashFall, leash_fall};
/// use tautwork::line::{Chain, ChainPiece};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
///
/// let none = 0.0.newtons_per_meter();
/// let stiff = Stretch::axial_rigidity(1e12.newtons())?;
/// let mut fall = LeashFall {
///     line: Chain {
///         near: [0.0.meters(); 3],
///         far: [1.0.meters(), 0.0.meters(), 0.0.meters()],
///         pieces: vec![ChainPiece::new(0.99.meters(), none, stiff)],
///         loads: Vec::new(),
///         samples: 2,
///     },
///     at: 0.495.meters(),
///     mass: 80.0.kilograms(),
///     leash: 1.5.meters(),
///     leash_stretch: Stretch::axial_rigidity(30.0.kilonewtons())?,
///     tie_in_above: 1.0.meters(),
///     body_below: 1.0.meters(),
/// };
/// // A line that hardly gives: 2.5 m on 1.5 m of leash,
/// // 784.8 N + √(784.8² + 2 · 784.8 · 30 000 · 2.5 / 1.5) N.
/// let stopped = leash_fall(&fall)?;
/// assert!((stopped.leash_force.in_kilonewtons() - 9.678).abs() < 0.002);
/// fall.tie_in_above = 2.0.meters();
/// assert!(leash_fall(&fall).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn leash_fall(fall: &LeashFall) -> Result<LeashArrest, FallError> {
    let mass_kg = positive("mass", fall.mass)?;
    let w_n = mass_kg * GRAVITY;
    let leash_m = positive("leash", fall.leash)?;
    let above_m = between("tie_in_above", fall.tie_in_above, none(), fall.leash)?;
    let body_m = non_negative("body_below", fall.body_below)?;
    let mut press = Press::new(&fall.line, fall.at)?;
    let standing = press.state(w_n)?;
    let standing_m = press.depth_m(w_n)?;
    let law = fall.leash_stretch.law();
    let mut catch = Catch { w_n, leash_m, law, press };
    let start = catch.start(above_m + leash_m - standing_m)?;
    let (force_n, low) = catch.peak(&start)?;
    let solved = catch.press.state(force_n)?;
    let drop_m = start.drop_m(&low);
    let energy_j = w_n * drop_m;
    let missed_j = (start.taken_j(&low) - energy_j).abs() + catch.press.missed_j;
    let residual = missed_j / energy_j;
    // Written so that NaN fails too.
    if !(0.0..=1e-8).contains(&residual) {
        return Err(FallError::NotConverged { residual });
    }
    let strain = law.strain(force_n);
    let lowest_m = low.ring_m - standing_m + leash_m * (1.0 + strain) + body_m;
    let wave_s = wave_s(&fall.line, fall.at.si(), catch.press.free.tension_near.si());
    let rise_s = rise_s(mass_kg, &start, force_n, drop_m - start.free_m);
    let mut notes = Vec::new();
    if force_n > law.last_n() {
        notes.push(FallNote::PastTable);
    }
    if wave_s >= 0.5 * rise_s {
        notes.push(FallNote::LineAnswersLate);
    }
    Ok(LeashArrest {
        leash_force: FallError::finite("leash_force", force_n)?,
        leash_strain: FallError::finite("leash_strain", strain)?,
        standing_depth: FallError::finite("standing_depth", standing_m)?,
        free_fall: FallError::finite("free_fall", start.free_m)?,
        start_force: FallError::finite("start_force", start.force_n)?,
        ring_depth: FallError::finite("ring_depth", low.ring_m)?,
        lowest_below_line: FallError::finite("lowest_below_line", lowest_m)?,
        drop: FallError::finite("drop", drop_m)?,
        energy: FallError::finite("energy", energy_j)?,
        line_energy: FallError::finite("line_energy", low.line_j - start.at.line_j)?,
        standing_tension_near: standing.tension_near,
        tension_near: solved.tension_near,
        tension_far: solved.tension_far,
        wave_time: FallError::finite("wave_time", wave_s)?,
        rise_time: FallError::finite("rise_time", rise_s)?,
        residual,
        solves: catch.press.solves,
        notes,
        line_notes: solved.notes,
    })
}

/// There and back along the longer side of a line, Eq. (L5).
fn wave_s(line: &Chain, at_m: f64, tension_n: f64) -> f64 {
    let (mut from_m, mut sides) = (0.0, [0.0; 2]);
    for piece in &line.pieces {
        let to_m = from_m + piece.rest_length.si();
        let mid_m = at_m.clamp(from_m, to_m);
        let slowness = (piece.weight.si() / GRAVITY / tension_n).sqrt();
        sides[0] += 2.0 * slowness * (mid_m - from_m);
        sides[1] += 2.0 * slowness * (to_m - mid_m);
        from_m = to_m;
    }
    sides[0].max(sides[1])
}

/// From first load to peak on a linear spring with the same peak, Eq. (L6).
fn rise_s(mass_kg: f64, start: &Start, force_n: f64, travel_m: f64) -> f64 {
    let omega = ((force_n - start.force_n) / mass_kg / travel_m).sqrt();
    let speed = (2.0 * GRAVITY * start.free_m).sqrt();
    let pull = GRAVITY - start.force_n / mass_kg;
    (std::f64::consts::PI - (speed * omega / pull).atan()) / omega
}

struct Catch<'a> {
    w_n: f64,
    leash_m: f64,
    law: &'a Law,
    press: Press,
}

/// Line and leash under a force.
#[derive(Clone, Copy)]
struct Held {
    ring_m: f64,
    stretch_m: f64,
    line_j: f64,
    leash_j: f64,
}

/// The moment from which energy counts: the leash goes taut after the free fall, or already pulls.
struct Start {
    free_m: f64,
    force_n: f64,
    at: Held,
}

impl Start {
    /// Whole drop down to a state.
    fn drop_m(&self, to: &Held) -> f64 {
        self.free_m + (to.ring_m - self.at.ring_m) + (to.stretch_m - self.at.stretch_m)
    }

    /// Energy that line and leash take up until a state.
    fn taken_j(&self, to: &Held) -> f64 {
        (to.line_j - self.at.line_j) + (to.leash_j - self.at.leash_j)
    }
}

impl Catch<'_> {
    /// Line and leash at a force, given ∫ y dP up to it, Eq. (L3).
    fn at(&mut self, force_n: f64, area_j: f64) -> Result<Held, LineError> {
        let ring_m = self.press.depth_m(force_n)?;
        Ok(Held {
            ring_m,
            stretch_m: self.leash_m * self.law.strain(force_n),
            line_j: force_n * ring_m - area_j,
            leash_j: self.leash_m * self.law.energy_n(force_n),
        })
    }

    /// The start, Eq. (L1), of a free fall that is below zero where the line cannot rise all the way.
    fn start(&mut self, free_m: f64) -> Result<Start, FallError> {
        if free_m >= 0.0 {
            let at = Held { ring_m: 0.0, stretch_m: 0.0, line_j: 0.0, leash_j: 0.0 };
            return Ok(Start { free_m, force_n: 0.0, at });
        }
        let share = try_root(0.0, 1.0, |share| {
            let force_n = share * self.w_n;
            let given_m = self.press.depth_m(force_n)? + self.leash_m * self.law.strain(force_n);
            Ok(given_m / -free_m - 1.0)
        })?;
        let force_n = share.ok_or(FallError::NotConverged { residual: 1.0 })? * self.w_n;
        let area_j = self.press.area_j(0.0, force_n)?;
        Ok(Start { free_m: 0.0, force_n, at: self.at(force_n, area_j)? })
    }

    /// Taken up over released, less 1.
    fn balance(&self, start: &Start, held: &Held) -> f64 {
        start.taken_j(held) / (self.w_n * start.drop_m(held)) - 1.0
    }

    /// The root of Eq. (L2) above the weight.
    fn peak(&mut self, start: &Start) -> Result<(f64, Held), FallError> {
        let mut low_n = self.w_n;
        let mut low_j = self.press.area_j(0.0, low_n)?;
        for _ in 0..DOUBLINGS {
            let high_n = 2.0 * low_n;
            let high_j = low_j + self.press.area_j(low_n, high_n)?;
            let held = self.at(high_n, high_j)?;
            let balance = self.balance(start, &held);
            if !balance.is_finite() {
                return Err(FallError::Overflow { result: "leash_force" });
            }
            if balance >= 0.0 {
                let missed_j = self.press.missed_j;
                let share = try_root(0.0, 1.0, |share| {
                    let force_n = low_n * (1.0 + share);
                    let area_j = low_j + self.press.area_j(low_n, force_n)?;
                    let held = self.at(force_n, area_j)?;
                    Ok(self.balance(start, &held))
                })?;
                // Only the last of these integrals is in the result.
                self.press.missed_j = missed_j;
                let force_n = share.map_or(high_n, |share| low_n * (1.0 + share));
                let area_j = low_j + self.press.area_j(low_n, force_n)?;
                return Ok((force_n, self.at(force_n, area_j)?));
            }
            (low_n, low_j) = (high_n, high_j);
        }
        Err(FallError::Overflow { result: "leash_force" })
    }
}
