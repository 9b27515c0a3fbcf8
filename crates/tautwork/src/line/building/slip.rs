//! Hardware that gives at a force: locks that slip, absorbers that tear, links that break.

use serde::{Deserialize, Serialize};

use crate::line::error::all_finite;
use crate::line::inverse::root;
use crate::line::tensioning::{StandingLine, integral, standing};
use crate::line::{Chain, ChainLoad, LineError, solve_chain};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Energy, Force, Invalid, Length, MaybeText, Quantity, Text, print};

/// What hardware does at its force.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum HardwareKind {
    /// A lock lets cordage slip through until the tension has fallen to `hold`, or `length` is used up.
    Slips {
        /// Tension above which it begins.
        #[serde(with = "Text::<Force>")]
        force: Force,
        /// Tension at which it holds again, at most `force`.
        #[serde(with = "Text::<Force>")]
        hold: Force,
        /// Rest length of cordage that can slip.
        #[serde(with = "Text::<Length>")]
        length: Length,
    },
    /// An absorber tears at its force and gets longer until the tension is down to it, or `length` is
    /// used up.
    Absorbs {
        /// Tension at which it tears.
        #[serde(with = "Text::<Force>")]
        force: Force,
        /// Length that can be torn free.
        #[serde(with = "Text::<Length>")]
        length: Length,
    },
    /// A weak spot breaks. Behind it there may be a longer way, such as a slack loop.
    Breaks {
        /// Tension above which it breaks.
        #[serde(with = "Text::<Force>")]
        force: Force,
        /// Length by which the way behind it is longer; none if the line parts.
        #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
        backup_length: Option<Length>,
    },
}

/// Hardware at a point of a line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GivingHardware {
    /// Rest length of line from the near end to it. A load at the same point stays on its near side.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// What it does.
    pub kind: HardwareKind,
}

/// A line with hardware in it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GivingLine {
    /// The line, with its loads.
    pub line: Chain,
    /// The hardware.
    pub hardware: GivingHardware,
}

/// A remark on an answer at rest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum SlipNote {
    /// The hardware takes less than the line lets off: what is left moves the line beyond its rest.
    DynamicOvershoot {
        /// Energy let off and not taken by the hardware.
        #[serde(with = "Text::<Energy>")]
        energy: Energy,
        /// Length given by the time the hardware alone has taken all, Eq. (B7): a bound on the slip
        /// unless it is the whole length, beyond which the line takes a shock.
        #[serde(with = "Text::<Length>")]
        most_slip: Length,
    },
    /// The whole length is used up and the tension is still above what the hardware holds.
    RanOut,
    /// The line has parted: its ends whip back with the energy stored, which is not followed.
    Parted,
}

/// Before and after.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HardwareGives {
    /// Whether the tension at the hardware is above its force.
    pub acts: bool,
    /// The line before.
    pub before: StandingLine,
    /// The line after; none if it has parted.
    pub after: Option<StandingLine>,
    /// Tension at the hardware before.
    #[serde(with = "Text::<Force>")]
    pub tension_before: Force,
    /// Tension at the hardware after; none if it has parted.
    #[serde(with = "MaybeText::<Force>")]
    pub tension_after: Option<Force>,
    /// Length given.
    #[serde(with = "Text::<Length>")]
    pub slip: Length,
    /// Energy that the line and its loads let off on the way, Eq. (B5); zero if it has parted.
    #[serde(with = "Text::<Energy>")]
    pub let_off: Energy,
    /// Part of it that the hardware takes at the tension it holds, Eq. (B6).
    #[serde(with = "Text::<Energy>")]
    pub dissipated: Energy,
    /// Remarks.
    pub notes: Vec<SlipNote>,
}

/// The new rest of a line after hardware in it has given at its force, Eq. (B5) to (B7).
///
/// The length given has the stretch and weight of the piece it is in. Valid for slow loading; a note
/// says how much energy the answer at rest hides.
///
/// # Errors
/// [`LineError::Invalid`] for hardware off the line and values out of range;
/// [`LineError::Unreachable`] where no length gives the tension; else as [`solve_chain`].
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainPiece, GivingHardware, GivingLine, HardwareKind, hardware_gives};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// let stretch = Stretch::axial_rigidity(100.0.kilonewtons())?;
/// let line = GivingLine {
///     line: Chain {
///         near: [0.0.meters(); 3],
///         far: [105.0.meters(), 0.0.meters(), 0.0.meters()],
///         pieces: vec![ChainPiece::new(100.0.meters(), 0.0.newtons_per_meter(), stretch)],
///         loads: vec![],
///         samples: 2,
///     },
///     hardware: GivingHardware {
///         at: 0.0.meters(),
///         kind: HardwareKind::Absorbs { force: 4.0.kilonewtons(), length: 3.0.meters() },
///     },
/// };
/// // 5 kN tear it until 105 m are 4 % more than the rest length: L = 105 / 1.04.
/// let gives = hardware_gives(&line)?;
/// assert!(gives.acts);
/// assert!((gives.slip.in_meters() - (105.0 / 1.04 - 100.0)).abs() < 1e-9);
/// let off = GivingHardware { at: 101.0.meters(), ..line.hardware };
/// assert!(hardware_gives(&GivingLine { hardware: off, ..line }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn hardware_gives(input: &GivingLine) -> Result<HardwareGives, LineError> {
    let (limits, giving) = (Limits::of(&input.hardware)?, Giving::of(input)?);
    let before = solve_chain(&giving.marked(0.0))?;
    let tension_before = last_tension(&before.loads)?;
    let mut given = HardwareGives {
        acts: tension_before.si() > limits.force_n,
        before: standing(&input.line, &before),
        after: Some(standing(&input.line, &before)),
        tension_before,
        tension_after: Some(tension_before),
        slip: Length::from_si(0.0),
        let_off: Energy::from_si(0.0),
        dissipated: Energy::from_si(0.0),
        notes: vec![],
    };
    if !given.acts {
        return Ok(given);
    }
    let Some(length_m) = limits.length_m else {
        (given.after, given.tension_after) = (None, None);
        given.notes.push(SlipNote::Parted);
        return Ok(given);
    };
    let hold_n = limits.hold_n;
    let ran_out = length_m == 0.0 || giving.tension_n(length_m)? > hold_n;
    let slip_m = if ran_out {
        length_m
    } else if hold_n == 0.0 {
        // It gives all it has: nothing holds it.
        length_m
    } else {
        let scale = tension_before.si();
        let f = |s: f64| giving.tension_n(s).map_or(f64::NAN, |t| (t - hold_n) / scale);
        root(0.0, length_m, f).ok_or_else(|| LineError::Unreachable {
            wanted: format!("a tension of {hold_n} N at the hardware"),
            reason: "no length given leaves it".to_owned(),
        })?
    };
    let new = giving.marked(slip_m);
    let after = solve_chain(&new)?;
    let let_off_j = giving.let_off_j(0.0, slip_m)?;
    let taken = giving.rate(hold_n);
    let dissipated_j = taken * slip_m;
    given.tension_after = Some(last_tension(&after.loads)?);
    given.after = Some(standing(&new, &after));
    given.slip = Length::from_si(slip_m);
    given.let_off = Energy::from_si(let_off_j);
    given.dissipated = Energy::from_si(dissipated_j);
    if ran_out && slip_m > 0.0 {
        given.notes.push(SlipNote::RanOut);
    }
    let left_j = let_off_j - dissipated_j;
    if left_j > 0.0 {
        let most_m = giving.most_slip_m(slip_m, length_m, left_j, taken)?;
        given.notes.push(SlipNote::DynamicOvershoot {
            energy: Energy::from_si(left_j),
            most_slip: Length::from_si(most_m),
        });
    }
    all_finite(&[let_off_j, dissipated_j], "energy let off")?;
    Ok(given)
}

fn last_tension(loads: &[crate::line::ChainLoadState]) -> Result<Force, LineError> {
    loads.last().map(|l| l.tension_after).ok_or(LineError::Overflow { result: "tension" })
}

/// The figures of the hardware in SI.
struct Limits {
    force_n: f64,
    hold_n: f64,
    length_m: Option<f64>,
}

impl Limits {
    fn of(hardware: &GivingHardware) -> Result<Self, LineError> {
        let within = |e: Invalid| LineError::Invalid(e.within("hardware.kind"));
        let limits = match hardware.kind {
            HardwareKind::Slips { force, hold, length } => {
                let force_n = positive("force", force).map_err(within)?;
                let hold_n = non_negative("hold", hold).map_err(within)?;
                if hold_n > force_n {
                    let most = format!("at most the force, {}", print(force));
                    return Err(Invalid::new("hardware.kind.hold", print(hold), most).into());
                }
                let length_m = non_negative("length", length).map_err(within)?;
                Self { force_n, hold_n, length_m: Some(length_m) }
            }
            HardwareKind::Absorbs { force, length } => {
                let force_n = positive("force", force).map_err(within)?;
                let length_m = non_negative("length", length).map_err(within)?;
                Self { force_n, hold_n: force_n, length_m: Some(length_m) }
            }
            HardwareKind::Breaks { force, backup_length } => {
                let force_n = positive("force", force).map_err(within)?;
                let length_m = match backup_length {
                    Some(l) => Some(non_negative("backup_length", l).map_err(within)?),
                    None => None,
                };
                Self { force_n, hold_n: 0.0, length_m }
            }
        };
        Ok(limits)
    }
}

/// A line that gets longer at one point.
struct Giving<'a> {
    line: &'a Chain,
    at_m: f64,
    piece: usize,
    /// Changed length of the piece for each rest length of it.
    factor: f64,
}

impl<'a> Giving<'a> {
    fn of(input: &'a GivingLine) -> Result<Self, LineError> {
        let within = |e: Invalid| LineError::Invalid(e.within("hardware"));
        let at_m = non_negative("at", input.hardware.at).map_err(within)?;
        let mut from = 0.0;
        for (piece, p) in input.line.pieces.iter().enumerate() {
            from += p.rest_length.si();
            if at_m <= from {
                let factor = match p.condition {
                    Some(condition) => condition.rest_length_factor()?.si(),
                    None => 1.0,
                };
                return Ok(Self { line: &input.line, at_m, piece, factor });
            }
        }
        let end = format!("from 0 m to {from} m, the end of the line");
        Err(Invalid::new("hardware.at", print(input.hardware.at), end).into())
    }

    /// The line with so much given, and a mark at the hardware as its last load.
    fn marked(&self, slip_m: f64) -> Chain {
        let mut line = self.line.clone();
        let piece = &mut line.pieces[self.piece];
        piece.rest_length = Length::from_si(piece.rest_length.si() + slip_m);
        for load in &mut line.loads {
            if load.at.si() > self.at_m {
                load.at = Length::from_si(load.at.si() + slip_m);
            }
        }
        // Rounding must not put a load beyond the end.
        let total: f64 = line.pieces.iter().map(|p| p.rest_length.si()).sum();
        for load in &mut line.loads {
            if load.at.si() > total && load.at.si() <= total * (1.0 + 1e-12) {
                load.at = Length::from_si(total);
            }
        }
        line.loads.push(ChainLoad::mark(self.at_m));
        line
    }

    fn tension_n(&self, slip_m: f64) -> Result<f64, LineError> {
        let mut line = self.marked(slip_m);
        line.samples = 2;
        match solve_chain(&line) {
            Ok(solved) => Ok(last_tension(&solved.loads)?.si()),
            Err(LineError::NotUnique) => Ok(0.0),
            Err(other) => Err(other),
        }
    }

    /// Energy that passes the hardware at a tension for each rest length given, Eq. (B5).
    fn rate(&self, tension_n: f64) -> f64 {
        let law = self.line.pieces[self.piece].stretch.law();
        let through = 1.0 + law.strain(tension_n);
        self.factor * (tension_n * through - law.energy_n(tension_n))
    }

    fn let_off_j(&self, low_m: f64, high_m: f64) -> Result<f64, LineError> {
        let rates = |s: f64| Ok([self.rate(self.tension_n(s)?), 0.0]);
        Ok(integral(&rates, low_m, high_m)?[0])
    }

    /// The slip at which the hardware alone has taken what was left, Eq. (B7), up to its length.
    fn most_slip_m(
        &self,
        slip_m: f64,
        length_m: f64,
        left_j: f64,
        taken: f64,
    ) -> Result<f64, LineError> {
        let left = |s: f64| -> Result<f64, LineError> {
            Ok((left_j + self.let_off_j(slip_m, s)? - taken * (s - slip_m)) / left_j)
        };
        if slip_m >= length_m || left(length_m)? >= 0.0 {
            return Ok(length_m);
        }
        root(slip_m, length_m, |s| left(s).unwrap_or(f64::NAN)).ok_or_else(|| {
            LineError::Unreachable {
                wanted: "the end of the overshoot".to_owned(),
                reason: "the energies do not meet within the length".to_owned(),
            }
        })
    }
}
