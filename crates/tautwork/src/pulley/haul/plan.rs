//! Strokes, rope, time and work of a haul.

use serde::{Deserialize, Serialize};

use super::super::{BodyForce, Friction, PulleyError, Throw, solve};
use super::HaulWith;
use crate::quantity::check::{count, finite, non_negative, positive};
use crate::quantity::{
    AxialRigidity, Energy, Force, Invalid, Length, MaybeText, Quantity, Ratio, Speed, Text, Time,
    print,
};

/// Most strokes.
const MOST_STROKES: f64 = 1e6;

/// A haul and the people for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Haul {
    /// The system.
    pub system: HaulWith,
    /// Loss at the sheaves of an ordinary system; left out for one of one's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction: Option<Friction>,
    /// Pull at the load, edges and redirects on the way to the system counted in.
    #[serde(with = "Text::<Force>")]
    pub load: Force,
    /// Way that the load has to go.
    #[serde(with = "Text::<Length>")]
    pub lift: Length,
    /// Way of the hauled point from one reset to the next.
    #[serde(with = "Text::<Length>")]
    pub throw: Length,
    /// What the progress capture gives back at a reset, its slack taken up with it; zero if left out.
    #[serde(with = "Text::<Length>", default = "none")]
    pub back_slip: Length,
    /// Haul line from the load to the system; zero if left out.
    #[serde(with = "Text::<Length>", default = "none")]
    pub line_length: Length,
    /// Rigidity of the haul line; it does not stretch if left out.
    #[serde(with = "MaybeText::<AxialRigidity>", default)]
    pub line_rigidity: Option<AxialRigidity>,
    /// Rigidity of the rope of the system; it does not stretch if left out.
    #[serde(with = "MaybeText::<AxialRigidity>", default)]
    pub system_rigidity: Option<AxialRigidity>,
    /// People at the rope.
    pub people: u32,
    /// What each can pull again and again.
    #[serde(with = "Text::<Force>")]
    pub pull_each: Force,
    /// Speed at which rope goes through the hands.
    #[serde(with = "Text::<Speed>")]
    pub hand_speed: Speed,
    /// Time for a reset.
    #[serde(with = "Text::<Time>")]
    pub reset_time: Time,
}

fn none() -> Length {
    Length::from_si(0.0)
}

/// What a haul takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HaulWork {
    /// Name of the system.
    pub system: String,
    /// Hand travel over load travel.
    #[serde(with = "Text::<Ratio>")]
    pub ideal_advantage: Ratio,
    /// Load over hand force.
    #[serde(with = "Text::<Ratio>")]
    pub actual_advantage: Ratio,
    /// Hand force while the load rises, Eq. (P1).
    #[serde(with = "Text::<Force>")]
    pub hand_force: Force,
    /// Least hand force that holds the load without a progress capture.
    #[serde(with = "Text::<Force>")]
    pub holding_force: Force,
    /// People needed, Eq. (P2).
    pub people_needed: u32,
    /// Whether the people there are enough.
    pub enough: bool,
    /// Strokes, Eq. (P5).
    pub strokes: u32,
    /// Resets between them.
    pub resets: u32,
    /// Way of the hauled point lost to the stretch of the system in each stroke, Eq. (P3).
    #[serde(with = "Text::<Length>")]
    pub lost_each_stroke: Length,
    /// Way lost once to the stretch of the haul line, Eq. (P4).
    #[serde(with = "Text::<Length>")]
    pub line_stretch: Length,
    /// Rope through the hands, Eq. (P6).
    #[serde(with = "Text::<Length>")]
    pub rope_through_hands: Length,
    /// Rope in the system when it is drawn out: its parts over the throw.
    #[serde(with = "Text::<Length>")]
    pub rope_in_system: Length,
    /// Time, Eq. (P9).
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Work of the hands, Eq. (P7).
    #[serde(with = "Text::<Energy>")]
    pub work: Energy,
    /// What of it raised the load, Eq. (P8).
    #[serde(with = "Text::<Energy>")]
    pub raised: Energy,
    /// Stored in the haul line.
    #[serde(with = "Text::<Energy>")]
    pub stored: Energy,
    /// Lost at the resets.
    #[serde(with = "Text::<Energy>")]
    pub lost_at_resets: Energy,
    /// Lost at the sheaves.
    #[serde(with = "Text::<Energy>")]
    pub lost_at_sheaves: Energy,
    /// Force on each body of the system while the load rises: `anchor`, and the blocks.
    pub bodies: Vec<BodyForce>,
}

/// One lift with several systems.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Hauls {
    /// Each system in the order given; one whose strokes would gain nothing is left out.
    pub each: Vec<HaulWork>,
    /// The system of the lowest ideal advantage that the people can pull.
    pub least: Option<String>,
}

/// Strokes, rope, time and work of a haul, Eq. (P1) to (P9).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range, and where a stroke gains nothing; [`PulleyError::Overflow`] where
/// work or time is too small for a number.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, Haul, Ordinary, haul_work};
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// // A person of 80 kg, 20 m up with a 3:1 of sheaves that lose 17 %, 2 m of throw.
/// let haul = Haul {
///     system: Ordinary::ThreeToOne.into(),
///     friction: Some(Friction::Fixed { efficiency: 0.83.ratio() }),
///     load: 784.8.newtons(),
///     lift: 20.0.meters(),
///     throw: 2.0.meters(),
///     back_slip: 0.0.meters(),
///     line_length: 0.0.meters(),
///     line_rigidity: None,
///     system_rigidity: None,
///     people: 2,
///     pull_each: 200.0.newtons(),
///     hand_speed: 0.3.meters_per_second(),
///     reset_time: 20.0.seconds(),
/// };
/// let work = haul_work(&haul)?;
/// // 784.8 N / 2.5189; ten strokes; three metres of rope for each metre of lift.
/// assert!((work.hand_force.in_newtons() - 311.6).abs() < 0.1);
/// assert!(work.enough && work.people_needed == 2);
/// assert_eq!((work.strokes, work.resets), (10, 9));
/// assert!((work.rope_through_hands.in_meters() - 60.0).abs() < 1e-9);
/// assert!(haul_work(&Haul { back_slip: 2.0.meters(), ..haul }).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn haul_work(haul: &Haul) -> Result<HaulWork, PulleyError> {
    let load_n = positive("load", haul.load)?;
    let lift_m = positive("lift", haul.lift)?;
    let throw_m = positive("throw", haul.throw)?;
    let slip_m = non_negative("back_slip", haul.back_slip)?;
    let line_m = non_negative("line_length", haul.line_length)?;
    let speed = positive("hand_speed", haul.hand_speed)?;
    let reset_s = non_negative("reset_time", haul.reset_time)?;
    let each_n = positive("pull_each", haul.pull_each)?;
    count("people", haul.people as usize, 1, 1000)?;
    let solved = solve(&haul.system.system(haul.friction)?, haul.load)?;
    long_enough(haul, solved.throw.as_ref())?;
    let (hand_n, ideal) = (solved.raising.hand.si(), solved.ideal_advantage.si());
    let tensions = solved.raising.parts.iter().map(|part| part.tension.si());
    let lost_m = match haul.system_rigidity {
        Some(ea) => tensions.sum::<f64>() * throw_m / (positive("system_rigidity", ea)? * ideal),
        None => 0.0,
    };
    let stretch_m = match haul.line_rigidity {
        Some(ea) => load_n * line_m / positive("line_rigidity", ea)?,
        None => 0.0,
    };
    let gain_m = throw_m - lost_m - slip_m;
    if gain_m <= 0.0 {
        let lost = print(Length::from_si(lost_m + slip_m));
        let allowed = format!("above what a stroke loses to stretch and back-slip, {lost}");
        return Err(Invalid::new("throw", print(haul.throw), allowed).into());
    }
    // Rounding must not ask for a stroke more.
    let strokes = (((lift_m + stretch_m - slip_m) / gain_m) * (1.0 - 1e-12)).ceil().max(1.0);
    if !(strokes <= MOST_STROKES && hand_n.is_finite()) {
        let allowed = format!("so long that {MOST_STROKES} strokes do");
        return Err(Invalid::new("throw", print(haul.throw), allowed).into());
    }
    let slipped_m = (strokes - 1.0) * slip_m;
    let rope_m = ideal * (lift_m + stretch_m + strokes * lost_m + slipped_m);
    let work_j = hand_n * ideal * (lift_m + slipped_m + 0.5 * strokes * lost_m + 0.5 * stretch_m);
    let (raised_j, stored_j) = (load_n * lift_m, 0.5 * load_n * stretch_m);
    let resets_j = load_n * (slipped_m + 0.5 * strokes * lost_m);
    let time_s = rope_m / speed + (strokes - 1.0) * reset_s;
    let needed = (hand_n / each_n).ceil();
    for (name, value) in [("rope", rope_m), ("work", work_j), ("time", time_s), ("people", needed)]
    {
        finite(name, Ratio::from_si(value))?;
    }
    // Below the number range the books would not balance.
    if !(work_j.is_normal() && time_s.is_normal()) {
        return Err(PulleyError::Overflow { result: "haul_work" });
    }
    let parts = solved.raising.parts.len() as f64;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded above")]
    let (strokes, people_needed) = (strokes as u32, needed.min(f64::from(u32::MAX)) as u32);
    Ok(HaulWork {
        system: haul.system.name().to_owned(),
        ideal_advantage: solved.ideal_advantage,
        actual_advantage: solved.actual_advantage,
        hand_force: solved.raising.hand,
        holding_force: solved.hold.low,
        people_needed,
        enough: f64::from(haul.people) * each_n >= hand_n,
        strokes,
        resets: strokes - 1,
        lost_each_stroke: Length::from_si(lost_m),
        line_stretch: Length::from_si(stretch_m),
        rope_through_hands: Length::from_si(rope_m),
        rope_in_system: Length::from_si(parts * throw_m),
        time: Time::from_si(time_s),
        work: Energy::from_si(work_j),
        raised: Energy::from_si(raised_j),
        stored: Energy::from_si(stored_j),
        lost_at_resets: Energy::from_si(resets_j),
        lost_at_sheaves: Energy::from_si(work_j - raised_j - stored_j - resets_j),
        bodies: solved.raising.bodies,
    })
}

/// The bodies of a system of one's own are where they are: its throw ends where two of them meet.
fn long_enough(haul: &Haul, met: Option<&Throw>) -> Result<(), PulleyError> {
    let (HaulWith::Own(_), Some(met)) = (&haul.system, met) else { return Ok(()) };
    if haul.throw <= met.load {
        return Ok(());
    }
    let most = print(met.load);
    let allowed = format!("at most {most}, after which {} meets {}", met.from, met.to);
    Err(Invalid::new("throw", print(haul.throw), allowed).into())
}

/// One lift with several systems, and the least of them that the people can pull.
///
/// # Errors
/// As [`haul_work`]; a system whose strokes would gain nothing is left out instead.
///
/// # Example
/// ```
/// # use tautwork::pulley::{Friction, Haul, Ordinary, compare_hauls};
/// # use tautwork::quantity::Words;
/// # let haul = Haul {
/// #     system: Ordinary::Redirect.into(),
/// #     friction: Some(Friction::Fixed { efficiency: 0.83.ratio() }),
/// #     load: 784.8.newtons(), lift: 20.0.meters(), throw: 2.0.meters(), back_slip: 0.0.meters(),
/// #     line_length: 0.0.meters(), line_rigidity: None, system_rigidity: None, people: 2,
/// #     pull_each: 200.0.newtons(), hand_speed: 0.3.meters_per_second(), reset_time: 20.0.seconds(),
/// # };
/// // Two people of 200 N each: a 2:1 asks for 429 N, a 3:1 for 312 N.
/// let systems = [Ordinary::Redirect, Ordinary::TwoToOne, Ordinary::ThreeToOne, Ordinary::FiveToOne];
/// let hauls = compare_hauls(&haul, &systems.map(Into::into))?;
/// assert_eq!(hauls.least.as_deref(), Some("three_to_one"));
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn compare_hauls(haul: &Haul, systems: &[HaulWith]) -> Result<Hauls, PulleyError> {
    let mut each: Vec<HaulWork> = Vec::with_capacity(systems.len());
    for system in systems {
        // A system of one's own says itself what its sheaves lose.
        let friction = haul.friction.filter(|_| matches!(system, HaulWith::Ordinary(_)));
        match haul_work(&Haul { system: system.clone(), friction, ..haul.clone() }) {
            Ok(work) => each.push(work),
            Err(PulleyError::Invalid(invalid)) if invalid.parameter == "throw" => {
                // A throw that is no length is the caller's mistake.
                positive("throw", haul.throw)?;
            }
            Err(error) => return Err(error),
        }
    }
    let can = each.iter().filter(|work| work.enough);
    let least = can.min_by(|a, b| a.ideal_advantage.si().total_cmp(&b.ideal_advantage.si()));
    Ok(Hauls { least: least.map(|work| work.system.clone()), each })
}
