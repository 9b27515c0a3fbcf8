//! Modes of a chain with masses on it, Eq. (V7) to (V9).

use core::f64::consts::PI;

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::discrete::{Lumped, MOST_NODES, Mode};
use crate::line::error::all_finite;
use crate::line::links::Links;
use crate::line::net::vector;
use crate::line::{Chain, LineError};
use crate::quantity::check::{self, non_negative};
use crate::quantity::{Invalid, Mass, Quantity, Ratio, Text, Texts};

/// A chain that vibrates about its rest, with the mass that each load holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VibratingChain {
    /// The chain; without wind.
    pub chain: Chain,
    /// Mass at each load, in the order of the loads. A load without mass is a steady pull.
    #[serde(with = "Texts::<Mass>", default)]
    pub masses: Vec<Mass>,
    /// Pieces into which the chain is cut, 2 to 200; 64 if left out. Loads and joints add to them.
    #[serde(default = "usual_segments")]
    pub segments: usize,
    /// Modes wanted, the lowest first; 6 if left out. All, if there are fewer.
    #[serde(default = "usual_count")]
    pub count: usize,
}

fn usual_segments() -> usize {
    64
}

fn usual_count() -> usize {
    6
}

/// A mode of a chain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ModeShape {
    /// Natural frequency.
    pub frequency_hz: f64,
    /// Share of the kinetic energy that moves along the span.
    #[serde(with = "Text::<Ratio>")]
    pub along_share: Ratio,
    /// Share that moves sideways.
    #[serde(with = "Text::<Ratio>")]
    pub sideways_share: Ratio,
    /// Share that moves up and down.
    #[serde(with = "Text::<Ratio>")]
    pub upward_share: Ratio,
    /// Displacement of each node along the span; over the largest displacement of any node.
    pub x: Vec<f64>,
    /// The same to the left.
    pub y: Vec<f64>,
    /// The same upwards.
    pub z: Vec<f64>,
}

/// What [`chain_modes`] finds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainModes {
    /// Modes, the lowest first.
    pub modes: Vec<ModeShape>,
    /// Rest length from the near end to each node; the anchors are the first and the last.
    pub s_m: Vec<f64>,
    /// Rest place of each node, along the span.
    pub x_m: Vec<f64>,
    /// To the left.
    pub y_m: Vec<f64>,
    /// Up.
    pub z_m: Vec<f64>,
    /// What is left of Eq. (V8), over ω²: the worst of the modes.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
}

/// Modes of a chain of any pieces with masses tied to it, about its exact rest, Eq. (V7) to (V9).
///
/// Any sag and any stretch, for small motion. The masses of the pieces are lumped at the nodes: the
/// error of mode j falls as (j / segments)².
///
/// # Errors
/// As [`solve_chain`](crate::line::solve_chain); [`LineError::Invalid`] for wind, for masses that are not
/// one for each load, below zero, or none anywhere, for more than 200 nodes;
/// [`LineError::NotConverged`] if the eigenvalues are not found.
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainLoad, ChainPiece, VibratingChain, chain_modes};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::Words;
/// let none = 0.0.newtons_per_meter();
/// let chain = Chain {
///     near: [0.0.meters(); 3],
///     far: [101.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(
///         100.0.meters(),
///         none,
///         Stretch::axial_rigidity(100.0.kilonewtons())?,
///     )],
///     loads: vec![ChainLoad { at: 50.0.meters(), force: [0.0.newtons(); 3] }],
///     samples: 2,
/// };
/// // 1 kN holds 10 kg in the middle with 2 · 1000 N / 50.5 m: ω² = 3.960 / s².
/// let input = VibratingChain { chain, masses: vec![10.0.kilograms()], segments: 16, count: 3 };
/// let modes = chain_modes(&input)?;
/// assert!((modes.modes[0].frequency_hz - 0.3167).abs() < 1e-4);
/// assert!(chain_modes(&VibratingChain { masses: vec![], ..input }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn chain_modes(input: &VibratingChain) -> Result<ChainModes, LineError> {
    let VibratingChain { chain, masses, segments, count } = input;
    check::count("segments", *segments, 2, MOST_NODES)?;
    check::count("count", *count, 1, 3 * MOST_NODES)?;
    let links = Links::new(chain)?;
    for (i, piece) in chain.pieces.iter().enumerate() {
        if piece.wind.iter().any(|w| w.si() != 0.0) {
            return Err(Invalid::new(format!("pieces[{i}].wind"), "above zero", "no wind").into());
        }
        if piece.gust.is_some() {
            return Err(Invalid::new(format!("pieces[{i}].gust"), "given", "no wind").into());
        }
    }
    if masses.len() != chain.loads.len() {
        let (given, wanted) = (masses.len(), chain.loads.len());
        return Err(Invalid::new(
            "masses",
            format!("{given} values"),
            format!("{wanted}, as loads"),
        )
        .into());
    }
    let mut extra = Vec::new();
    for (i, (load, mass)) in chain.loads.iter().zip(masses).enumerate() {
        let kg = non_negative("mass", *mass).map_err(|e| e.within(&format!("masses[{i}]")))?;
        extra.push((load.at.si(), kg));
    }
    let near = vector("near", &chain.near)?;
    let chord = vector("far", &chain.far)? - near;
    let solved = links.solve(&chord)?;
    let lumped = Lumped::new(&links, solved.pull_n, &extra, *segments)?;
    if lumped.mass_kg.iter().all(|m| *m == 0.0) {
        return Err(Invalid::new("masses", "zero", "mass on the chain or in it").into());
    }
    let modes = lumped.modes()?;
    let modes = &modes[..modes.len().min(*count)];
    let places = |axis: usize| {
        let inner = lumped.place_m.iter().map(|p| near[axis] + p[axis]);
        [near[axis]].into_iter().chain(inner).chain([near[axis] + chord[axis]]).collect()
    };
    let s_m = [0.0].into_iter().chain(lumped.s_m.iter().copied()).chain([links.length_m()]);
    let answer = ChainModes {
        modes: modes.iter().map(|mode| shown(mode, &lumped.mass_kg)).collect(),
        s_m: s_m.collect(),
        x_m: places(0),
        y_m: places(1),
        z_m: places(2),
        residual: Ratio::from_si(modes.iter().fold(0.0, |worst, m| m.residual.max(worst))),
    };
    for mode in &answer.modes {
        all_finite(&[mode.frequency_hz, mode.upward_share.si()], "modes")?;
        for part in [&mode.x, &mode.y, &mode.z] {
            all_finite(part, "mode shape")?;
        }
    }
    all_finite(&[answer.residual.si()], "modes")?;
    Ok(answer)
}

fn shown(mode: &Mode, mass_kg: &[f64]) -> ModeShape {
    let mut shares = Vector3::zeros();
    let mut most = 0.0_f64;
    for (x, m) in mode.shape.iter().zip(mass_kg) {
        shares += x.component_mul(x) * *m;
        most = x.iter().fold(most, |a, b| if b.abs() > a.abs() { *b } else { a });
    }
    let part = |axis: usize| {
        let inner = mode.shape.iter().map(|x| x[axis] / most);
        [0.0].into_iter().chain(inner).chain([0.0]).collect()
    };
    let [along, sideways, upward] = (shares / shares.sum()).into();
    ModeShape {
        frequency_hz: mode.omega2.sqrt() / (2.0 * PI),
        along_share: Ratio::from_si(along),
        sideways_share: Ratio::from_si(sideways),
        upward_share: Ratio::from_si(upward),
        x: part(0),
        y: part(1),
        z: part(2),
    }
}
