//! Entries of the document turned into the inputs of the models.

use serde::{Deserialize, Serialize};

use crate::material::{MaterialError, Stretch, StretchBasis, Viscoelastic};
use crate::quantity::{
    Area, AxialRigidity, Density, Force, Length, LinearDensity, Quantity, Ratio, Speed, Time,
    Words, print,
};
use crate::rig::{
    BodyEntry, CordageEntry, HaulEntry, JumpRopeEntry, RescueEntry, Response, Rig, RigError,
    StretchEntry,
};
use crate::swing;

/// A value the document left out.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Assumption {
    /// Key of the document, or the model that assumes it.
    pub what: String,
    /// Value taken, with its unit.
    pub value: String,
    /// Why, and in which direction it errs.
    pub why: String,
}

/// Values taken for what a document leaves out.
#[derive(Debug)]
pub(super) struct Defaults {
    pub air_density: Density,
    pub survey_error: Length,
    pub launch_radius: Length,
    pub horizon: Time,
    pub line_mass_fraction: Ratio,
    pub rope_drag_area: Area,
    pub force_levels: Vec<Force>,
    pub list: Vec<Assumption>,
}

impl Defaults {
    pub fn of(rig: &Rig) -> Self {
        let mut list = Vec::new();
        let air = rig.air.as_ref().and_then(|a| a.density);
        let jump = &rig.jump;
        let force_levels = if jump.force_levels.is_empty() {
            let levels = vec![2.0.kilonewtons(), 3.0.kilonewtons(), 4.0.kilonewtons()];
            let value = levels.iter().map(|f| print(*f)).collect::<Vec<_>>().join(", ");
            note(&mut list, "jump.force_levels", value, "only says which durations are reported");
            levels
        } else {
            jump.force_levels.clone()
        };
        for (what, body) in [("jumper", Some(&rig.jumper)), ("bag", rig.bag.as_ref())] {
            if let Some(body) = body {
                body_defaults(&mut list, what, body);
            }
        }
        let mut defaults = Self {
            air_density: take(
                &mut list,
                "air.density",
                air,
                1.2.kilograms_per_cubic_meter(),
                "sea level at about 20 °C",
            ),
            survey_error: take(
                &mut list,
                "requirements.survey_error",
                rig.requirements.survey_error,
                0.0.meters(),
                "clearances are as good as the survey, and no better",
            ),
            launch_radius: take(
                &mut list,
                "jump.launch_radius",
                jump.launch_radius,
                5.0.meters(),
                "within it the ledge counts as exit clearance",
            ),
            horizon: take(
                &mut list,
                "jump.horizon",
                jump.horizon,
                120.0.seconds(),
                "later swings are not followed",
            ),
            line_mass_fraction: rig.ring.line_mass_fraction.unwrap_or_else(|| {
                let why = "of the taut lines; the jump is also run at 0 and 1/2";
                note(&mut list, "ring.line_mass_fraction", "1/3".to_owned(), why);
                (1.0 / 3.0).ratio()
            }),
            rope_drag_area: take(
                &mut list,
                "jump.rope_drag_area",
                jump.rope_drag_area,
                0.0.square_meters(),
                "low: less drag gives a longer fall and more force",
            ),
            force_levels,
            list,
        };
        crew_defaults(&mut defaults.list, rig);
        if rig.ring.damping.is_none() {
            note(
                &mut defaults.list,
                "ring.damping",
                "0 N·s/m".to_owned(),
                "none is known; damping would lower every peak",
            );
        }
        if rig.exclusion.as_ref().is_some_and(|exclusion| exclusion.throw.is_none()) {
            let why = "a thing kicked or thrown by hand; common practice, no source";
            note(&mut defaults.list, "exclusion.throw", "3 m/s".to_owned(), why);
        }
        let what_if = format!("followed for at most {} s", super::flight::WHAT_IF_S);
        let why = "parts absent, longer ropes, other line masses: later swings are not seen";
        note(&mut defaults.list, "jumps beside the plan", what_if, why);
        wind_defaults(&mut defaults.list, rig);
        note(
            &mut defaults.list,
            "gravity",
            "9.81 m/s²".to_owned(),
            "good to 0.3 % anywhere on Earth",
        );
        note(
            &mut defaults.list,
            "anchors",
            "do not give".to_owned(),
            "an anchor that gives lowers the line",
        );
        defaults
    }
}

fn note(list: &mut Vec<Assumption>, what: &str, value: String, why: &str) {
    list.push(Assumption { what: what.to_owned(), value, why: why.to_owned() });
}

fn take<Q: Quantity>(
    list: &mut Vec<Assumption>,
    what: &str,
    given: Option<Q>,
    default: Q,
    why: &str,
) -> Q {
    given.unwrap_or_else(|| {
        note(list, what, print(default), why);
        default
    })
}

/// Radius and drag area of a body where they are not given.
fn body_defaults(list: &mut Vec<Assumption>, what: &str, body: &BodyEntry) {
    take(list, &format!("{what}.radius"), body.radius, default_radius(), "room for arms and legs");
    take(
        list,
        &format!("{what}.drag_area"),
        body.drag_area,
        0.0.square_meters(),
        "low: less drag gives a longer fall and more force",
    );
}

fn default_radius() -> Length {
    1.0.meters()
}

impl BodyEntry {
    pub(super) fn radius_or_default(&self) -> Length {
        self.radius.unwrap_or_else(default_radius)
    }

    pub(super) fn drag_area_or_default(&self) -> Area {
        self.drag_area.unwrap_or_else(|| 0.0.square_meters())
    }
}

/// What the wind blows on, and how.
fn wind_defaults(list: &mut Vec<Assumption>, rig: &Rig) {
    let why = if rig.wind.is_empty() {
        "wind moves the jumper and the lines sideways"
    } else {
        "of the jump itself; the winds of the document stand beside it"
    };
    note(list, "wind", "0 m/s".to_owned(), why);
    if rig.wind.is_empty() {
        return;
    }
    let used = |name: &String| rig.line.iter().any(|line| line.cordage == *name);
    for (name, cordage) in rig.cordage.iter().filter(|(name, _)| used(name)) {
        if cordage.width.is_none() {
            let why = "without it the wind does nothing to the lines of it";
            note(list, &format!("cordage.{name:?}.width"), "0 m".to_owned(), why);
        } else if cordage.drag_coefficient.is_none() {
            let why = "a round rope; a webbing that flutters has more; common practice, no source";
            let value = print(cordage.drag_coefficient_or_default());
            note(list, &format!("cordage.{name:?}.drag_coefficient"), value, why);
        }
    }
    let why = "it blows on jumper and jump ropes; a gust that rises and falls may do more";
    note(list, "wind in a jump", "steady, not on the lines".to_owned(), why);
}

impl CordageEntry {
    pub(super) fn drag_coefficient_or_default(&self) -> Ratio {
        self.drag_coefficient.unwrap_or_else(|| 1.2.ratio())
    }
}

/// What a haul and a rescue assume.
fn crew_defaults(list: &mut Vec<Assumption>, rig: &Rig) {
    if let Some(haul) = &rig.haul {
        let mut assumed = |key: &str, given: bool, value: String, why: &str| {
            if !given {
                note(list, &format!("haul.{key}"), value, why);
            }
        };
        let speed = print(haul.hand_speed_or_default());
        assumed("hand_speed", haul.hand_speed.is_some(), speed, "sets the time, no force");
        let time = print(haul.reset_time_or_default());
        assumed("reset_time", haul.reset_time.is_some(), time, "sets the time, no force");
        let why = "a capture that slips costs strokes";
        assumed("back_slip", haul.back_slip.is_some(), "0 m".to_owned(), why);
    }
    if let Some(rescue) = &rig.rescue {
        take(
            list,
            "rescue.climb_pull",
            rescue.climb_pull,
            CLIMB_PULL_N.newtons(),
            "no source: try it",
        );
        let period = CLIMB_PERIOD_S.seconds();
        take(list, "rescue.climb_period", rescue.climb_period, period, "no source: try it");
        let ratio = CLIMB_DAMPING.ratio();
        take(list, "rescue.damping_ratio", rescue.damping_ratio, ratio, "low: it bounces more");
    }
}

/// By how much the pull of a climber goes up and down, N; the time between two pulls, s; damping of the rope.
const CLIMB_PULL_N: f64 = 200.0;
const CLIMB_PERIOD_S: f64 = 1.5;
const CLIMB_DAMPING: f64 = 0.05;

impl HaulEntry {
    pub(super) fn hand_speed_or_default(&self) -> Speed {
        self.hand_speed.unwrap_or_else(|| 0.3.meters_per_second())
    }

    pub(super) fn reset_time_or_default(&self) -> Time {
        self.reset_time.unwrap_or_else(|| 20.0.seconds())
    }
}

impl RescueEntry {
    pub(super) fn climb_pull_or_default(&self) -> Force {
        self.climb_pull.unwrap_or_else(|| CLIMB_PULL_N.newtons())
    }

    pub(super) fn climb_period_or_default(&self) -> Time {
        self.climb_period.unwrap_or_else(|| CLIMB_PERIOD_S.seconds())
    }

    pub(super) fn damping_ratio_or_default(&self) -> Ratio {
        self.damping_ratio.unwrap_or_else(|| CLIMB_DAMPING.ratio())
    }
}

impl Rig {
    /// The cordage of a name; the document is checked, so it is there.
    pub(super) fn cordage_named(&self, name: &str) -> Result<&CordageEntry, RigError> {
        self.cordage
            .get(name)
            .ok_or_else(|| RigError::unsolved("cordage", &format!("\"{name}\" is not known")))
    }
}

/// Stretch under lasting load: of a dynamic rope, its static elongation.
pub(super) fn stretch(entry: &StretchEntry) -> Result<Stretch, RigError> {
    let basis = if let Some(ea) = entry.axial_rigidity {
        StretchBasis::AxialRigidity(ea)
    } else if let (Some(elongation), Some(at)) = (entry.elongation, entry.at) {
        StretchBasis::Elongation { elongation, at }
    } else if let Some(table) = &entry.table {
        StretchBasis::Table(table.clone())
    } else if let Some(elongation) = entry.en892_static_elongation {
        StretchBasis::En892StaticElongation(elongation)
    } else if let Some(force) = entry.en892_impact_force {
        StretchBasis::En892ImpactForce(force)
    } else if let Some(elongation) = entry.en1891_elongation {
        StretchBasis::En1891Elongation(elongation)
    } else {
        return Err(RigError::unsolved("cordage", &"no stretch is given"));
    };
    Stretch::new(basis).map_err(|e| material(&e))
}

fn material(error: &MaterialError) -> RigError {
    RigError::unsolved("cordage", error)
}

/// Rigidities of a dynamic rope from its two EN 892 figures: long-term and sudden.
pub(super) fn rigidities(
    cordage: &CordageEntry,
) -> Result<(AxialRigidity, AxialRigidity), RigError> {
    let s = &cordage.stretch;
    let (Some(elongation), Some(force)) = (s.en892_static_elongation, s.en892_impact_force) else {
        return Err(RigError::unsolved("jump rope", &"both EN 892 figures are needed"));
    };
    let solid =
        Viscoelastic::from_en892(elongation, force, 1.0.seconds()).map_err(|e| material(&e))?;
    Ok((solid.long_term, solid.sudden()))
}

/// A jump rope for the jump.
pub(super) fn jump_rope(rig: &Rig, rope: &JumpRopeEntry) -> Result<swing::Rope, RigError> {
    let cordage = rig.cordage_named(&rope.cordage)?;
    let (soft, stiff) = rigidities(cordage)?;
    let response = match (rig.jump.response, cordage.relaxation) {
        (Response::StandardLinearSolid, Some(range)) => swing::Response::Solid {
            long_term: soft,
            arm: stiff - soft,
            relaxation_low: range.low,
            relaxation_high: range.high,
        },
        (_, relaxation) => {
            swing::Response::Pair { stiff, soft, relaxation: relaxation.map(|range| range.low) }
        }
    };
    Ok(swing::Rope {
        name: rope.name.clone(),
        rest_length: rope.rest_length,
        linear_density: cordage.linear_density,
        response,
    })
}

/// Mass per rest length in kg/m, for kernels and sums.
pub(super) fn mass_of(density: LinearDensity, length: Length) -> f64 {
    density.si() * length.si()
}
