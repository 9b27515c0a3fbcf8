//! How far cordage stretches under tension, from any of the figures in which makers give it.

use serde::{Deserialize, Serialize};

use super::MaterialError;
use super::curve::{Curve, Law};
use super::standards::{
    EN892_FALL_FACTOR, EN892_MASS_KG, ea_from_en892_static, ea_from_en1891, ea_from_impact_force,
};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{AxialRigidity, Force, GRAVITY, MaybeText, Quantity, Ratio, Text, print};

/// The figure a stretch was given as.
#[derive(Debug, Clone, PartialEq)]
pub enum StretchBasis {
    /// Tension over strain of a linear cord, Eq. (1).
    AxialRigidity(AxialRigidity),
    /// Strain at one tension of a linear cord.
    Elongation {
        /// Strain on the rest length.
        elongation: Ratio,
        /// Tension at which it is measured.
        at: Force,
    },
    /// Points (tension, strain) of a curve, Eq. (2). The origin may be left out.
    Table(Vec<(Force, Ratio)>),
    /// EN 892 static elongation, 5 kg to 80 kg, Eq. (3).
    En892StaticElongation(Ratio),
    /// EN 892 impact force of a single rope, 80 kg at fall factor 1.77, Eq. (5). An effective stiff
    /// figure for that test, edge friction included.
    En892ImpactForce(Force),
    /// EN 1891 elongation, 50 kg to 150 kg, Eq. (4).
    En1891Elongation(Ratio),
}

/// Stretch of cordage: strain as a strictly increasing function of tension.
///
/// In a document it is a table with one of the keys `axial_rigidity`, `elongation` with `at`, `table`,
/// `en892_static_elongation`, `en892_impact_force`, `en1891_elongation`.
///
/// # Example
/// ```
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
/// // EN 1891: 100 kg more stretch it by 3.3 %, so EA = 981 N / 0.033.
/// let rope = Stretch::en1891_elongation(3.3.percent())?;
/// assert!((rope.strain(981.0.newtons())?.in_percent() - 3.3).abs() < 1e-12);
/// assert!(Stretch::axial_rigidity(0.0.newtons()).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Form", into = "Form")]
pub struct Stretch {
    basis: StretchBasis,
    law: Law,
}

impl Stretch {
    /// From any figure.
    ///
    /// # Errors
    /// [`MaterialError`] for a figure that is not above zero, a table that does not rise strictly in
    /// both columns, and an impact force of less than twice the weight.
    pub fn new(basis: StretchBasis) -> Result<Self, MaterialError> {
        let law = match &basis {
            StretchBasis::AxialRigidity(ea) => linear(positive("axial_rigidity", *ea)?)?,
            StretchBasis::Elongation { elongation, at } => {
                linear(positive("at", *at)? / positive("elongation", *elongation)?)?
            }
            StretchBasis::Table(rows) => Law::Curve(curve(rows)?),
            StretchBasis::En892StaticElongation(e) => {
                linear(ea_from_en892_static(positive("en892_static_elongation", *e)?))?
            }
            StretchBasis::En892ImpactForce(force) => {
                let force_n = positive("en892_impact_force", *force)?;
                let weight_n = EN892_MASS_KG * GRAVITY;
                if force_n <= 2.0 * weight_n {
                    return Err(MaterialError::below_twice_weight(*force));
                }
                linear(ea_from_impact_force(weight_n, EN892_FALL_FACTOR, force_n))?
            }
            StretchBasis::En1891Elongation(e) => {
                linear(ea_from_en1891(positive("en1891_elongation", *e)?))?
            }
        };
        Ok(Self { basis, law })
    }

    /// Linear, from the axial rigidity EA.
    ///
    /// # Errors
    /// As [`Stretch::new`].
    pub fn axial_rigidity(ea: AxialRigidity) -> Result<Self, MaterialError> {
        Self::new(StretchBasis::AxialRigidity(ea))
    }

    /// Linear, from "x % at y kN".
    ///
    /// # Errors
    /// As [`Stretch::new`].
    pub fn elongation(elongation: Ratio, at: Force) -> Result<Self, MaterialError> {
        Self::new(StretchBasis::Elongation { elongation, at })
    }

    /// A curve through points (tension, strain), Eq. (2).
    ///
    /// # Errors
    /// As [`Stretch::new`].
    ///
    /// # Example
    /// ```
    /// use tautwork::material::Stretch;
    /// use tautwork::quantity::{ReadRatio, Words};
    /// let (kn, percent) = (|x: f64| x.kilonewtons(), |x: f64| x.percent());
    /// let tape = Stretch::table(vec![(kn(2.0), percent(1.2)), (kn(10.0), percent(4.0))])?;
    /// assert!((tape.strain(kn(10.0))?.in_percent() - 4.0).abs() < 1e-12);
    /// assert!(tape.is_past_table(kn(11.0)));
    /// // A flat toe has no single tension.
    /// assert!(Stretch::table(vec![(kn(0.0), percent(1.0)), (kn(10.0), percent(4.0))]).is_err());
    /// # Ok::<(), tautwork::material::MaterialError>(())
    /// ```
    pub fn table(rows: Vec<(Force, Ratio)>) -> Result<Self, MaterialError> {
        Self::new(StretchBasis::Table(rows))
    }

    /// Linear, from the EN 892 static elongation, Eq. (3).
    ///
    /// # Errors
    /// As [`Stretch::new`].
    pub fn en892_static_elongation(elongation: Ratio) -> Result<Self, MaterialError> {
        Self::new(StretchBasis::En892StaticElongation(elongation))
    }

    /// Linear, from the EN 892 impact force, Eq. (5).
    ///
    /// # Errors
    /// As [`Stretch::new`].
    pub fn en892_impact_force(force: Force) -> Result<Self, MaterialError> {
        Self::new(StretchBasis::En892ImpactForce(force))
    }

    /// Linear, from the EN 1891 elongation, Eq. (4).
    ///
    /// # Errors
    /// As [`Stretch::new`].
    pub fn en1891_elongation(elongation: Ratio) -> Result<Self, MaterialError> {
        Self::new(StretchBasis::En1891Elongation(elongation))
    }

    /// The figure this was given as.
    pub fn basis(&self) -> &StretchBasis {
        &self.basis
    }

    /// Strain at a tension.
    ///
    /// # Errors
    /// [`MaterialError`] unless the tension is zero or more.
    pub fn strain(&self, tension: Force) -> Result<Ratio, MaterialError> {
        MaterialError::finite("strain", self.law.strain(non_negative("tension", tension)?))
    }

    /// Tension at a strain.
    ///
    /// # Errors
    /// [`MaterialError`] unless the strain is zero or more.
    pub fn tension(&self, strain: Ratio) -> Result<Force, MaterialError> {
        MaterialError::finite("tension", self.law.tension(non_negative("strain", strain)?))
    }

    /// Slope dT/de at a tension: the axial rigidity for a small change.
    ///
    /// # Errors
    /// [`MaterialError`] unless the tension is zero or more.
    pub fn tangent_rigidity(&self, tension: Force) -> Result<AxialRigidity, MaterialError> {
        let (_, slope) = self.law.strain_and_slope(non_negative("tension", tension)?);
        MaterialError::finite("tangent rigidity", 1.0 / slope)
    }

    /// True past the last point of a table, where the curve goes on straight without evidence.
    pub fn is_past_table(&self, tension: Force) -> bool {
        tension.si() > self.law.last_n()
    }

    pub(crate) fn law(&self) -> &Law {
        &self.law
    }
}

fn linear(ea_n: f64) -> Result<Law, MaterialError> {
    Ok(Law::Linear { ea_n: MaterialError::rigidity(ea_n)? })
}

fn curve(rows: &[(Force, Ratio)]) -> Result<Curve, MaterialError> {
    let (mut t_n, mut e) = (vec![0.0], vec![0.0]);
    for (row, (tension, strain)) in rows.iter().enumerate() {
        let (t, s) = (non_negative("tension", *tension), non_negative("strain", *strain));
        let within = |p: crate::quantity::Invalid| p.within(&format!("table[{row}]"));
        let (t, s) = (t.map_err(within)?, s.map_err(within)?);
        if row == 0 && t == 0.0 && s == 0.0 {
            continue;
        }
        let last = t_n.len() - 1;
        if t <= t_n[last] || s <= e[last] {
            return Err(MaterialError::NotRising {
                row,
                tension: print(*tension),
                strain: print(*strain),
            });
        }
        t_n.push(t);
        e.push(s);
    }
    if t_n.len() < 2 {
        return Err(MaterialError::EmptyTable);
    }
    let curve = Curve::new(t_n, e);
    if curve.is_sound() { Ok(curve) } else { Err(MaterialError::Overflow { result: "slope" }) }
}

/// The document form: exactly one way of giving the stretch.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Form {
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    axial_rigidity: Option<AxialRigidity>,
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    elongation: Option<Ratio>,
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    at: Option<Force>,
    #[serde(skip_serializing_if = "Option::is_none")]
    table: Option<Vec<(Text<Force>, Text<Ratio>)>>,
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    en892_static_elongation: Option<Ratio>,
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    en892_impact_force: Option<Force>,
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    en1891_elongation: Option<Ratio>,
}

impl TryFrom<Form> for Stretch {
    type Error = MaterialError;

    fn try_from(form: Form) -> Result<Self, MaterialError> {
        let elongation = match (form.elongation, form.at) {
            (Some(elongation), Some(at)) => Some(StretchBasis::Elongation { elongation, at }),
            (None, None) => None,
            _ => return Err(MaterialError::Forms { given: 0 }),
        };
        let rows = |t: Vec<(Text<Force>, Text<Ratio>)>| t.iter().map(|r| (r.0.0, r.1.0)).collect();
        let mut given: Vec<StretchBasis> = [
            form.axial_rigidity.map(StretchBasis::AxialRigidity),
            elongation,
            form.table.map(|t| StretchBasis::Table(rows(t))),
            form.en892_static_elongation.map(StretchBasis::En892StaticElongation),
            form.en892_impact_force.map(StretchBasis::En892ImpactForce),
            form.en1891_elongation.map(StretchBasis::En1891Elongation),
        ]
        .into_iter()
        .flatten()
        .collect();
        match (given.pop(), given.len()) {
            (Some(basis), 0) => Self::new(basis),
            (only, others) => {
                Err(MaterialError::Forms { given: others + usize::from(only.is_some()) })
            }
        }
    }
}

impl From<Stretch> for Form {
    fn from(stretch: Stretch) -> Self {
        let mut form = Self::default();
        match stretch.basis {
            StretchBasis::AxialRigidity(ea) => form.axial_rigidity = Some(ea),
            StretchBasis::Elongation { elongation, at } => {
                (form.elongation, form.at) = (Some(elongation), Some(at));
            }
            StretchBasis::Table(rows) => {
                form.table = Some(rows.into_iter().map(|(t, e)| (Text(t), Text(e))).collect());
            }
            StretchBasis::En892StaticElongation(e) => form.en892_static_elongation = Some(e),
            StretchBasis::En892ImpactForce(f) => form.en892_impact_force = Some(f),
            StretchBasis::En1891Elongation(e) => form.en1891_elongation = Some(e),
        }
        form
    }
}
