//! What a leg is made of, and the compression it can take: Eqs. (F13) and (F14).

use std::f64::consts::PI;

use serde::{Deserialize, Serialize};

use crate::anchor::AnchorError;
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, Invalid, Length, MaybeText, Pressure, Quantity, Ratio, Text, print};

/// A leg as a column.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pole {
    /// Its cross-section.
    pub section: PoleSection,
    /// Its material.
    pub material: PoleMaterial,
    /// Effective length over length, K: 1 for pinned ends, as legs of a frame have, if left out.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub effective_length_factor: Option<Ratio>,
}

/// Cross-section of a pole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum PoleSection {
    /// Solid and round, of one diameter.
    Round {
        /// Diameter.
        #[serde(with = "Text::<Length>")]
        diameter: Length,
    },
    /// Solid and round, thinner towards one end, like a trunk.
    Cone {
        /// Diameter at the thick end.
        #[serde(with = "Text::<Length>")]
        thick: Length,
        /// Diameter at the thin end.
        #[serde(with = "Text::<Length>")]
        thin: Length,
    },
    /// A round tube.
    Tube {
        /// Outer diameter.
        #[serde(with = "Text::<Length>")]
        outer: Length,
        /// Thickness of its wall.
        #[serde(with = "Text::<Length>")]
        wall: Length,
    },
}

/// Material of a pole: one with figures from standards, or your own figures.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PoleMaterial {
    /// Round softwood, dry and sound, of unknown grade.
    Softwood,
    /// Aluminium alloy tube.
    Aluminium,
    /// Structural steel tube.
    Steel,
    /// Figures of your own.
    Own(PoleFigures),
}

/// Figures of a material, as ranges with their source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PoleFigures {
    /// Least Young's modulus along the pole.
    #[serde(with = "Text::<Pressure>")]
    pub young_modulus_low: Pressure,
    /// Greatest Young's modulus.
    #[serde(with = "Text::<Pressure>")]
    pub young_modulus_high: Pressure,
    /// Least compressive strength along the pole, yield for a metal.
    #[serde(with = "Text::<Pressure>")]
    pub strength_low: Pressure,
    /// Greatest compressive strength.
    #[serde(with = "Text::<Pressure>")]
    pub strength_high: Pressure,
    /// Imperfection factor α of Eq. (F14); 0 for a perfect column.
    #[serde(with = "Text::<Ratio>")]
    pub imperfection: Ratio,
    /// Relative slenderness λ̄₀ below which a column crushes before it bends.
    #[serde(with = "Text::<Ratio>")]
    pub plateau: Ratio,
    /// Where the figures come from.
    pub source: String,
}

impl PoleMaterial {
    /// Its figures.
    pub fn figures(&self) -> PoleFigures {
        let given =
            |e_gpa: [f64; 2], f_mpa: [f64; 2], imperfection, plateau, source: &str| PoleFigures {
                young_modulus_low: Pressure::from_si(1e9 * e_gpa[0]),
                young_modulus_high: Pressure::from_si(1e9 * e_gpa[1]),
                strength_low: Pressure::from_si(1e6 * f_mpa[0]),
                strength_high: Pressure::from_si(1e6 * f_mpa[1]),
                imperfection: Ratio::from_si(imperfection),
                plateau: Ratio::from_si(plateau),
                source: source.to_owned(),
            };
        match self {
            Self::Softwood => given(
                [5.4, 11.0],
                [17.0, 21.0],
                0.2,
                0.3,
                "EN 338, fifth percentile of class C16 to mean of C24; EN 1995-1-1; from memory",
            ),
            Self::Aluminium => given(
                [70.0, 70.0],
                [140.0, 250.0],
                0.2,
                0.1,
                "EN 1999-1-1, EN AW-6060 T6 to 6082 T6, buckling class A; from memory",
            ),
            Self::Steel => given(
                [210.0, 210.0],
                [235.0, 235.0],
                0.49,
                0.2,
                "EN 1993-1-1, S235, curve c of cold formed tubes; from memory",
            ),
            Self::Own(figures) => figures.clone(),
        }
    }
}

/// What a column can take, low and high, in SI units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Resistance {
    pub(super) slenderness: f64,
    pub(super) euler_n: [f64; 2],
    pub(super) crushing_n: [f64; 2],
    pub(super) capacity_n: [f64; 2],
    /// Whether the section is a cone and its thin end was taken for the whole.
    pub(super) thin_end: bool,
}

/// Eqs. (F13) and (F14) for a pole of checked length.
pub(super) fn resistance(pole: &Pole, length_m: f64) -> Result<Resistance, AnchorError> {
    let factor = match pole.effective_length_factor {
        None => 1.0,
        Some(k) if finite("effective_length_factor", k)? >= 0.5 => k.si(),
        Some(k) => {
            return Err(Invalid::new("effective_length_factor", print(k), "0.5 or more").into());
        }
    };
    let pinned = factor == 1.0;
    let (area_m2, second_m4) = section(&pole.section, pinned)?;
    let figures = pole.material.figures();
    let e_pa = range("young_modulus", figures.young_modulus_low, figures.young_modulus_high)?;
    let f_pa = range("strength", figures.strength_low, figures.strength_high)?;
    let imperfection = non_negative("imperfection", figures.imperfection)?;
    let plateau = non_negative("plateau", figures.plateau)?;
    let effective_m = factor * length_m;
    let euler_n = e_pa.map(|e| (PI / effective_m) * (PI / effective_m) * e * second_m4);
    let crushing_n = f_pa.map(|f| f * area_m2);
    let capacity_n = [0, 1].map(|i| {
        crushing_n[i] * reduction((crushing_n[i] / euler_n[i]).sqrt(), imperfection, plateau)
    });
    let slenderness = effective_m / (second_m4 / area_m2).sqrt();
    let all = euler_n.iter().chain(&crushing_n).chain(&capacity_n).chain([&slenderness]);
    if !all.into_iter().all(|n| n.is_normal()) {
        return Err(AnchorError::Overflow { result: "the buckling load" });
    }
    let cone = matches!(pole.section, PoleSection::Cone { .. });
    Ok(Resistance { slenderness, euler_n, crushing_n, capacity_n, thin_end: cone && !pinned })
}

/// χ of Eq. (F14).
pub(super) fn reduction(slenderness: f64, imperfection: f64, plateau: f64) -> f64 {
    if slenderness <= plateau {
        return 1.0;
    }
    let phi = 0.5 * (1.0 + imperfection * (slenderness - plateau) + slenderness * slenderness);
    // φ is above λ̄ but for rounding; two roots, since the product may overflow.
    let root = (phi - slenderness).max(0.0).sqrt() * (phi + slenderness).sqrt();
    (1.0 / (phi + root)).min(1.0)
}

fn range(name: &str, low: Pressure, high: Pressure) -> Result<[f64; 2], Invalid> {
    let low_pa = positive(&format!("{name}_low"), low)?;
    let high_name = format!("{name}_high");
    let high_pa = positive(&high_name, high)?;
    if high_pa < low_pa {
        return Err(Invalid::new(high_name, print(high), format!("at least {}", print(low))));
    }
    Ok([low_pa, high_pa])
}

/// Area that crushes and second moment that bends.
fn section(section: &PoleSection, pinned: bool) -> Result<(f64, f64), Invalid> {
    let round = |d_m: f64| (PI / 4.0 * d_m * d_m, PI / 64.0 * d_m.powi(4));
    match *section {
        PoleSection::Round { diameter } => Ok(round(positive("diameter", diameter)?)),
        PoleSection::Cone { thick, thin } => {
            let thick_m = positive("thick", thick)?;
            let thin_m = positive("thin", thin)?;
            if thin_m > thick_m {
                return Err(Invalid::new("thin", print(thin), format!("at most {}", print(thick))));
            }
            let (area_m2, second_m4) = round(thin_m);
            let both_m4 = PI / 64.0 * (thick_m * thin_m).powi(2);
            // The closed form is for pinned ends only.
            Ok((area_m2, if pinned { both_m4 } else { second_m4 }))
        }
        PoleSection::Tube { outer, wall } => {
            let outer_m = positive("outer", outer)?;
            let wall_m = positive("wall", wall)?;
            if wall_m > 0.5 * outer_m {
                return Err(Invalid::new(
                    "wall",
                    print(wall),
                    "at most half of the outer diameter",
                ));
            }
            let inner_m = outer_m - 2.0 * wall_m;
            // Differences of powers in factors, so that thin walls keep their digits.
            let area_m2 = PI * wall_m * (outer_m - wall_m);
            Ok((area_m2, area_m2 / 16.0 * (outer_m * outer_m + inner_m * inner_m)))
        }
    }
}

/// Factor of a capacity over a force, low and high.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FactorRange {
    /// With the least figures of the material.
    #[serde(with = "Text::<Ratio>")]
    pub low: Ratio,
    /// With the greatest.
    #[serde(with = "Text::<Ratio>")]
    pub high: Ratio,
}

impl FactorRange {
    /// None where the force is so small that the factor says nothing.
    pub(super) fn of(capacity_n: [f64; 2], force_n: f64) -> Option<Self> {
        let [low, high] = capacity_n.map(|n| n / force_n);
        high.is_finite().then(|| Self { low: Ratio::from_si(low), high: Ratio::from_si(high) })
    }
}

pub(super) fn forces(n: [f64; 2]) -> [Force; 2] {
    n.map(Force::from_si)
}
