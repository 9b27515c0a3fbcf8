//! What a hitch leaves of a sling's strength.

use serde::{Deserialize, Serialize};

use super::sling::{LEAST_CHOKE, choke_angle_factor};
use crate::anchor::AnchorError;
use crate::material::{BreakingStrength, Derating, MaterialError};
use crate::pulley::{PulleyError, capstan_ratio};
use crate::quantity::check::{count, finite, positive};
use crate::quantity::{Angle, Force, Invalid, MaybeText, Quantity, Ratio, Text, print};

/// A sling tied in a hitch.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hitch {
    /// How it is tied.
    pub form: HitchForm,
    /// Strength of one part, pulled straight from end to end: of a sewn sling its rating, of webbing for a
    /// wrap that of the webbing.
    pub strength: BreakingStrength,
    /// What else takes from every part: bend over a pin or an edge, knots in the load, wet, age.
    #[serde(default)]
    pub factors: Vec<Derating>,
}

/// How a sling is tied.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum HitchForm {
    /// End to end.
    Straight,
    /// Round the anchor and through its own eye.
    Choker {
        /// Angle of choke; the whole table counts where left out.
        #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
        choke_angle: Option<Angle>,
    },
    /// Round the anchor, both ends in the master point.
    Basket {
        /// Angle between the parts.
        #[serde(with = "Text::<Angle>")]
        v_angle: Angle,
    },
    /// A loop through itself.
    Girth {
        /// Angle of choke; the whole table counts where left out.
        #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
        choke_angle: Option<Angle>,
    },
    /// Wrapped round the anchor, some fronts pulled out, the knot on a front that stays.
    Wrap {
        /// Fronts pulled out to the master point.
        pulled: usize,
        /// Angle between their parts.
        #[serde(with = "Text::<Angle>")]
        v_angle: Angle,
        /// The knot, as in a straight pull.
        knot: Derating,
        /// Angle of wrap between a loaded part and the knot.
        #[serde(with = "Text::<Angle>")]
        knot_wrap: Angle,
        /// Least friction on the anchor.
        #[serde(with = "Text::<Ratio>")]
        least_friction: Ratio,
        /// Greatest friction on the anchor.
        #[serde(with = "Text::<Ratio>")]
        greatest_friction: Ratio,
    },
}

/// One factor of a hitch.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HitchFactor {
    /// What it is for.
    pub name: String,
    /// Least.
    #[serde(with = "Text::<Ratio>")]
    pub low: Ratio,
    /// Greatest.
    #[serde(with = "Text::<Ratio>")]
    pub high: Ratio,
    /// Where it comes from.
    pub source: String,
}

/// What to know about a hitch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HitchNote {
    /// The parts lean by more than 60° from the pull: ASME B30.9 lets no sling be that flat.
    Flat,
    /// The angle of choke is not given: the whole table of ASME B30.9 counts.
    AnyChokeAngle,
    /// With the least friction the knot breaks before the strands.
    KnotMayBreakFirst,
}

/// Strength of a hitch, as the pull it bears.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HitchStrength {
    /// With the least of each factor.
    #[serde(with = "Text::<Force>")]
    pub low: Force,
    /// With the greatest of each factor.
    #[serde(with = "Text::<Force>")]
    pub high: Force,
    /// Parts at the master point.
    pub strands: usize,
    /// Factors, whose product times the strength is the result.
    pub factors: Vec<HitchFactor>,
    /// What to know.
    pub notes: Vec<HitchNote>,
}

const PRACTICE: &str = "common practice, no source";
const CHOKER: &str = "0.8: EN 1492-1 and EN 1492-2 (from memory); 0.75: common practice, no source";
const STATICS: &str = "statics of equal parts";
const CHOKE_TABLE: &str = "ASME B30.9";

/// Strength range of a hitch from the strength of one straight part: Eqs. (F14) and (F15), choke angles
/// and the user's factors, each with its source in the result.
///
/// Valid for parts that share alike. A choker keeps 0.75 to 0.8, a girth hitch 0.5 to 0.8 (common
/// practice, no source), each times the factor of [`choke_angle_factor`].
///
/// # Errors
/// [`AnchorError::Invalid`] for a strength not above zero, factors outside (0, 1], a V angle outside
/// 0 to below 180°, fronts outside 1 to 20, negative friction or wrap; [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{Hitch, HitchForm, hitch_strength};
/// use tautwork::material::BreakingStrength;
/// use tautwork::quantity::{ReadForce, Words};
///
/// // A 22 kN sling as a basket with 60° between its parts: 2 · 22 · cos 30° = 38.1 kN.
/// let mut hitch = Hitch {
///     form: HitchForm::Basket { v_angle: 60.0.degrees() },
///     strength: BreakingStrength(22.0.kilonewtons()),
///     factors: vec![],
/// };
/// let strength = hitch_strength(&hitch)?;
/// assert!((strength.low.in_kilonewtons() - 38.105).abs() < 1e-3);
/// hitch.strength = BreakingStrength(0.0.kilonewtons());
/// assert!(hitch_strength(&hitch).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
///
/// # Source
/// ASME B30.9; EN 1492-1 and EN 1492-2 (from memory); Euler–Eytelwein.
pub fn hitch_strength(hitch: &Hitch) -> Result<HitchStrength, AnchorError> {
    let strength_n = positive("strength", hitch.strength.0)?;
    let mut found = HitchStrength {
        low: hitch.strength.0,
        high: hitch.strength.0,
        strands: 1,
        factors: Vec::new(),
        notes: Vec::new(),
    };
    match &hitch.form {
        HitchForm::Straight => {}
        HitchForm::Choker { choke_angle } => {
            found.factor("choker", (0.75, 0.8), CHOKER);
            found.choke(*choke_angle)?;
        }
        HitchForm::Girth { choke_angle } => {
            found.factor("girth hitch", (0.5, 0.8), PRACTICE);
            found.choke(*choke_angle)?;
        }
        HitchForm::Basket { v_angle } => found.parts(2, *v_angle)?,
        HitchForm::Wrap { pulled, v_angle, .. } => {
            found.parts(2 * count("pulled", *pulled, 1, 20)?, *v_angle)?;
        }
    }
    if let HitchForm::Wrap { knot, knot_wrap, least_friction, greatest_friction, .. } = &hitch.form
    {
        let (low, high) = knot.check().map_err(refused)?;
        let least =
            capstan_ratio(*least_friction, *knot_wrap).map_err(friction("least_friction"))?;
        let most =
            capstan_ratio(*greatest_friction, *knot_wrap).map_err(friction("greatest_friction"))?;
        if least > most {
            let allowed = format!("at most greatest_friction, {}", print(*greatest_friction));
            let value = print(*least_friction);
            return Err(Invalid::new("least_friction", value, allowed).into());
        }
        let kept = ((low * least.si()).min(1.0), (high * most.si()).min(1.0));
        if kept.0 < 1.0 {
            found.notes.push(HitchNote::KnotMayBreakFirst);
        }
        let source = format!("Euler–Eytelwein; {}", knot.source);
        found.factor(&format!("{} behind wraps", knot.name), kept, &source);
    }
    for factor in &hitch.factors {
        let kept = factor.check().map_err(refused)?;
        found.factor(&factor.name, kept, &factor.source);
    }
    let product = |of: fn(&HitchFactor) -> Ratio| {
        found.factors.iter().fold(strength_n, |product, factor| product * of(factor).si())
    };
    let (low_n, high_n) = (product(|f| f.low), product(|f| f.high));
    found.low = AnchorError::finite("low", low_n)?;
    found.high = AnchorError::finite("high", high_n)?;
    Ok(found)
}

impl HitchStrength {
    fn factor(&mut self, name: &str, (low, high): (f64, f64), source: &str) {
        self.factors.push(HitchFactor {
            name: name.to_owned(),
            low: Ratio::from_si(low),
            high: Ratio::from_si(high),
            source: source.to_owned(),
        });
    }

    fn choke(&mut self, angle: Option<Angle>) -> Result<(), AnchorError> {
        let kept = if let Some(angle) = angle {
            let kept = choke_angle_factor(angle)?.si();
            (kept, kept)
        } else {
            self.notes.push(HitchNote::AnyChokeAngle);
            (LEAST_CHOKE, 1.0)
        };
        self.factor("choke angle", kept, CHOKE_TABLE);
        Ok(())
    }

    /// Equal parts with an angle between them, Eq. (F14).
    fn parts(&mut self, strands: usize, v_angle: Angle) -> Result<(), AnchorError> {
        let rad = finite("v_angle", v_angle)?;
        if !(0.0..std::f64::consts::PI).contains(&rad) {
            let allowed = "from 0 deg to below 180 deg";
            return Err(Invalid::new("v_angle", print(v_angle), allowed).into());
        }
        self.strands = strands;
        // In degrees "120 deg" is at the border exactly.
        if rad > 120.0 * std::f64::consts::PI / 180.0 {
            self.notes.push(HitchNote::Flat);
        }
        let product = strands as f64 * (rad / 2.0).cos();
        self.factor("parts and their angle", (product, product), STATICS);
        Ok(())
    }
}

fn refused(error: MaterialError) -> AnchorError {
    match error {
        MaterialError::Invalid(invalid) => AnchorError::Invalid(invalid),
        _ => AnchorError::Overflow { result: "factor" },
    }
}

/// Names the argument that stands for `mu` in the capstan's errors.
fn friction(parameter: &'static str) -> impl Fn(PulleyError) -> AnchorError {
    move |error| match error {
        PulleyError::Invalid(mut invalid) => {
            let name = if invalid.parameter == "mu" { parameter } else { "knot_wrap" };
            name.clone_into(&mut invalid.parameter);
            AnchorError::Invalid(invalid)
        }
        _ => AnchorError::Overflow { result: "friction of the wraps" },
    }
}
