//! Derivatives of a line and of a chain by all of their inputs.

use serde::{Deserialize, Serialize};

use super::implicit::{Implicit, Input, Row};
use crate::line::chain_state::Hung;
use crate::line::error::all_finite;
use crate::line::links::Links;
use crate::line::net::vector;
use crate::line::{Chain, ElasticLine, LineError};
use crate::material::Law;
use crate::quantity::check::{finite, positive};
use crate::quantity::{Invalid, Quantity, Ratio, Text, print};

/// Derivatives of a tension of a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ForceByLine {
    /// By the span.
    pub by_span_n_per_m: f64,
    /// By the rise.
    pub by_rise_n_per_m: f64,
    /// By the rest length.
    pub by_rest_length_n_per_m: f64,
    /// By the weight per rest length, N per N/m.
    pub by_weight_m: f64,
    /// By the axial rigidity; none for a curve.
    pub by_axial_rigidity: Option<f64>,
    /// By a factor on the strain, at 1.
    pub by_strain_scale_n: f64,
}

/// Derivatives of a length of a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LengthByLine {
    /// By the span.
    pub by_span: f64,
    /// By the rise.
    pub by_rise: f64,
    /// By the rest length.
    pub by_rest_length: f64,
    /// By the weight per rest length.
    pub by_weight_m2_per_n: f64,
    /// By the axial rigidity; none for a curve.
    pub by_axial_rigidity_m_per_n: Option<f64>,
    /// By a factor on the strain, at 1.
    pub by_strain_scale_m: f64,
}

/// What [`elastic_derivatives`] finds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ElasticDerivatives {
    /// Of the tension at the near anchor.
    pub tension_near: ForceByLine,
    /// Of the tension at the far anchor.
    pub tension_far: ForceByLine,
    /// Of the horizontal part of the tension.
    pub h: ForceByLine,
    /// Of the largest vertical distance below the chord.
    pub sag_below_chord: LengthByLine,
    /// Of the length under tension.
    pub stretched_length: LengthByLine,
    /// Distance by which the solved line misses the far anchor, over the larger of rest length and
    /// chord.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
}

/// Derivatives of a tension of a chain. Lists follow the loads and the pieces of the chain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ForceByChain {
    /// By the force of each load along the span.
    pub by_load_x: Vec<f64>,
    /// By its force to the left.
    pub by_load_y: Vec<f64>,
    /// By its force upwards.
    pub by_load_z: Vec<f64>,
    /// By the rest length from the near end to each load.
    pub by_load_at_n_per_m: Vec<f64>,
    /// By the rest length of each piece.
    pub by_rest_length_n_per_m: Vec<f64>,
    /// By the axial rigidity of each piece; none for a curve.
    pub by_axial_rigidity: Vec<Option<f64>>,
    /// By a factor on the strain of each piece, at 1.
    pub by_strain_scale_n: Vec<f64>,
    /// By the place of the near anchor.
    pub by_near_n_per_m: [f64; 3],
    /// By the place of the far anchor.
    pub by_far_n_per_m: [f64; 3],
}

/// Derivatives of a length of a chain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LengthByChain {
    /// By the force of each load along the span.
    pub by_load_x_m_per_n: Vec<f64>,
    /// By its force to the left.
    pub by_load_y_m_per_n: Vec<f64>,
    /// By its force upwards.
    pub by_load_z_m_per_n: Vec<f64>,
    /// By the rest length from the near end to each load.
    pub by_load_at: Vec<f64>,
    /// By the rest length of each piece.
    pub by_rest_length: Vec<f64>,
    /// By the axial rigidity of each piece; none for a curve.
    pub by_axial_rigidity_m_per_n: Vec<Option<f64>>,
    /// By a factor on the strain of each piece, at 1.
    pub by_strain_scale_m: Vec<f64>,
    /// By the place of the near anchor.
    pub by_near: [f64; 3],
    /// By the place of the far anchor.
    pub by_far: [f64; 3],
}

/// What [`chain_derivatives`] finds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainDerivatives {
    /// Of the tension at the near anchor.
    pub tension_near: ForceByChain,
    /// Of the tension at the far anchor.
    pub tension_far: ForceByChain,
    /// Of the horizontal part of the tension at the near anchor.
    pub h_near: ForceByChain,
    /// Of the largest vertical distance below the chord.
    pub sag_below_chord: LengthByChain,
    /// Of the length under tension.
    pub stretched_length: LengthByChain,
    /// Distance by which the solved chain misses the far anchor, over the larger of rest length and
    /// chord.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
}

/// Exact derivatives of the figures of [`solve_elastic`](crate::line::solve_elastic) by every input,
/// Eq. (D1) to (D8).
///
/// Valid for a span above zero, taut or slack.
///
/// # Errors
/// As [`solve_elastic`](crate::line::solve_elastic); [`LineError::Invalid`] for a span of zero;
/// [`LineError::Overflow`] where a derivative has no bound.
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, elastic_derivatives};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::Words;
/// let line = ElasticLine {
///     span: 101.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 100.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
/// };
/// // T = EA (c / L - 1): by the span EA / L, by the length -EA c / L², by EA 1 %.
/// let d = elastic_derivatives(&line)?.tension_near;
/// assert!((d.by_span_n_per_m - 1000.0).abs() < 1e-6);
/// assert!((d.by_rest_length_n_per_m + 1010.0).abs() < 1e-6);
/// assert!((d.by_axial_rigidity.unwrap_or(0.0) - 0.01).abs() < 1e-12);
/// let upright = ElasticLine { span: 0.0.meters(), ..line };
/// assert!(elastic_derivatives(&upright).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
///
/// # Source
/// Implicit function theorem; derived in the module page.
pub fn elastic_derivatives(line: &ElasticLine) -> Result<ElasticDerivatives, LineError> {
    positive("span", line.span)?;
    finite("rise", line.rise)?;
    positive("rest_length", line.rest_length)?;
    let Hung { links, chord_m, state: solved, .. } = Hung::new(&Chain::of(line, vec![]))?;
    let implicit = Implicit::new(&links, chord_m, solved.pull_n)?;
    let by = |input| sound(implicit.by(input));
    let [span, rise, rest, weight, scale] = [
        by(Input::Far(0))?,
        by(Input::Far(2))?,
        by(Input::Rest(0))?,
        by(Input::Weight(0))?,
        by(Input::Scale(0))?,
    ];
    let law = line.stretch.law();
    let force = |pick: fn(&Row) -> f64| ForceByLine {
        by_span_n_per_m: pick(&span),
        by_rise_n_per_m: pick(&rise),
        by_rest_length_n_per_m: pick(&rest),
        by_weight_m: pick(&weight),
        by_axial_rigidity: by_rigidity(law, pick(&scale)),
        by_strain_scale_n: pick(&scale),
    };
    let length = |pick: fn(&Row) -> f64| LengthByLine {
        by_span: pick(&span),
        by_rise: pick(&rise),
        by_rest_length: pick(&rest),
        by_weight_m2_per_n: pick(&weight),
        by_axial_rigidity_m_per_n: by_rigidity(law, pick(&scale)),
        by_strain_scale_m: pick(&scale),
    };
    Ok(ElasticDerivatives {
        tension_near: force(|r| r.near),
        tension_far: force(|r| r.far),
        h: force(|r| r.h),
        sag_below_chord: length(|r| r.sag),
        stretched_length: length(|r| r.stretched),
        residual: Ratio::from_si(solved.residual_m / solved.scale_m),
    })
}

/// Exact derivatives of the figures of [`solve_chain`](crate::line::solve_chain) by the loads, the
/// pieces and the anchors, Eq. (D1) to (D8).
///
/// Loads keep their rest length from the near end when a piece before them gets longer, and belong to the
/// piece before them: at a joint of two pieces the derivative by `at` is the one towards the near end.
/// Where two points are lowest together, that of one of them is given.
///
/// # Errors
/// As [`solve_chain`](crate::line::solve_chain); [`LineError::Invalid`] for gusts, anchors above each other,
/// loads at an anchor and two loads at one point; [`LineError::Overflow`] where a derivative has no bound.
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainLoad, ChainPiece, chain_derivatives};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::Words;
/// let chain = Chain {
///     near: [0.0.meters(); 3],
///     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(
///         10.0.meters(),
///         0.0.newtons_per_meter(),
///         Stretch::axial_rigidity(1e9.newtons())?,
///     )],
///     loads: vec![ChainLoad {
///         at: 5.0.meters(),
///         force: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///     }],
///     samples: 2,
/// };
/// // Two stiff halves of 5 m over 6 m take 5/8 of a load; pulling up makes it less.
/// let d = chain_derivatives(&chain)?;
/// assert!((d.tension_near.by_load_z[0] + 0.625).abs() < 1e-5);
/// let upright = Chain { far: [0.0.meters(), 0.0.meters(), 9.0.meters()], ..chain };
/// assert!(chain_derivatives(&upright).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Implicit function theorem; derived in the module page.
pub fn chain_derivatives(chain: &Chain) -> Result<ChainDerivatives, LineError> {
    let links = Links::new(chain)?;
    let near = vector("near", &chain.near)?;
    let chord = vector("far", &chain.far)? - near;
    if chord.x == 0.0 && chord.y == 0.0 {
        return Err(
            Invalid::new("far", print(chain.far[0]), "not straight above or below near").into()
        );
    }
    if let Some(i) = chain.pieces.iter().position(|piece| piece.gust.is_some()) {
        let allowed = "none: a dead load is given as wind";
        return Err(Invalid::new(format!("pieces[{i}].gust"), "given".to_owned(), allowed).into());
    }
    let total = links.length_m();
    for (i, load) in chain.loads.iter().enumerate() {
        let at = load.at.si();
        let own = chain.loads.iter().filter(|other| other.at == load.at).count() == 1;
        if !(at > 0.0 && at < total && own) {
            let allowed = "a point between the anchors, for this load alone";
            return Err(Invalid::new(format!("loads[{i}].at"), print(load.at), allowed).into());
        }
    }
    let solved = links.solve(&chord)?;
    let implicit = Implicit::new(&links, chord, solved.pull_n)?;
    let rows = |count: usize, input: &dyn Fn(usize) -> Input| {
        (0..count).map(|i| sound(implicit.by(input(i)))).collect::<Result<Vec<_>, _>>()
    };
    let (loads, pieces) = (chain.loads.len(), chain.pieces.len());
    let forces = [
        rows(loads, &|i| Input::Force(i, 0))?,
        rows(loads, &|i| Input::Force(i, 1))?,
        rows(loads, &|i| Input::Force(i, 2))?,
    ];
    let at = rows(loads, &Input::At)?;
    let rest = rows(pieces, &Input::Rest)?;
    let scale = rows(pieces, &Input::Scale)?;
    let far = rows(3, &Input::Far)?;
    let all = |rows: &[Row], pick: Pick| rows.iter().map(pick).collect::<Vec<f64>>();
    let rigidity = |pick: Pick| {
        let laws = chain.pieces.iter().map(|piece| piece.stretch.law());
        laws.zip(&scale).map(|(law, row)| by_rigidity(law, pick(row))).collect::<Vec<_>>()
    };
    let place = |sign: f64, pick: Pick| [0, 1, 2].map(|axis| sign * pick(&far[axis]));
    let force = |pick: Pick| ForceByChain {
        by_load_x: all(&forces[0], pick),
        by_load_y: all(&forces[1], pick),
        by_load_z: all(&forces[2], pick),
        by_load_at_n_per_m: all(&at, pick),
        by_rest_length_n_per_m: all(&rest, pick),
        by_axial_rigidity: rigidity(pick),
        by_strain_scale_n: all(&scale, pick),
        by_near_n_per_m: place(-1.0, pick),
        by_far_n_per_m: place(1.0, pick),
    };
    let length = |pick: Pick| LengthByChain {
        by_load_x_m_per_n: all(&forces[0], pick),
        by_load_y_m_per_n: all(&forces[1], pick),
        by_load_z_m_per_n: all(&forces[2], pick),
        by_load_at: all(&at, pick),
        by_rest_length: all(&rest, pick),
        by_axial_rigidity_m_per_n: rigidity(pick),
        by_strain_scale_m: all(&scale, pick),
        by_near: place(-1.0, pick),
        by_far: place(1.0, pick),
    };
    Ok(ChainDerivatives {
        tension_near: force(|r| r.near),
        tension_far: force(|r| r.far),
        h_near: force(|r| r.h),
        sag_below_chord: length(|r| r.sag),
        stretched_length: length(|r| r.stretched),
        residual: Ratio::from_si(solved.residual_m / solved.scale_m),
    })
}

type Pick = fn(&Row) -> f64;

/// The strain goes with 1 / EA.
fn by_rigidity(law: &Law, by_scale: f64) -> Option<f64> {
    match law {
        Law::Linear { ea_n } => Some(-by_scale / ea_n),
        Law::Curve(_) => None,
    }
}

fn sound(row: Row) -> Result<Row, LineError> {
    let Row { near, far, h, sag, stretched } = row;
    all_finite(&[near, far, h, sag, stretched], "derivative")?;
    Ok(row)
}
