//! Equilibrium of lines, nets and bundles, and the inverse problems.

use tautwork::line::{
    BundleLine, BundleLoads, Chain, ElasticBatch, ElasticLine, LineEnd, Net,
    bundle_rest_length_for_tension, solve_bundle, solve_elastic_batch, sweep_bundle,
    sweep_bundle_batch,
};
use tautwork::quantity::{Force, Text};

use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    call!(line::catenary(span, rise, rest_length, weight)),
    call!(line::catenary_from_sag(span, rise, sag_below_chord, weight)),
    call!(line::solve_elastic { &ElasticLine }),
    Call {
        name: "line.solve_elastic_batch",
        arguments: Some(&[
            "span_m",
            "rise_m",
            "rest_length_m",
            "weight_n_per_m",
            "axial_rigidity_n",
        ]),
        run: elastic_batch,
    },
    call!(line::rest_length_for_tension(&line: ElasticLine, tension, end: LineEnd) => Text),
    Call {
        name: "line.bundle_rest_length_for_tension",
        arguments: Some(&["lines", "line", "tension", "end", "load"]),
        run: standing,
    },
    call!(line::rest_length_for_sag(&line: ElasticLine, sag_below_chord) => Text),
    call!(line::rest_length_for_mid_load_sag(&line: ElasticLine, load, sag_below_chord) => Text),
    call!(line::solve_chain { &Chain }),
    call!(line::solve_net { &Net }),
    Call { name: "line.solve_bundle", arguments: Some(&["lines", "load"]), run: bundle },
    Call { name: "line.sweep_bundle", arguments: Some(&["lines", "loads"]), run: sweep },
    Call {
        name: "line.sweep_bundle_batch",
        arguments: Some(&["lines", "load_x_n", "load_y_n", "load_z_n"]),
        run: sweep_batch,
    },
    call!(line::bundle_engagement(&lines: Vec<BundleLine>, up_to)),
];

/// A force vector as an argument.
pub(super) type Vector = [Text<Force>; 3];

fn bundle(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<BundleLine> = args.plain("lines")?;
    let load: Vector = args.plain("load")?;
    answer(&solve_bundle(&lines, load.map(|part| part.0))?)
}

fn sweep(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<BundleLine> = args.plain("lines")?;
    let loads: Vec<Vector> = args.plain("loads")?;
    let loads: Vec<_> = loads.into_iter().map(|load| load.map(|part| part.0)).collect();
    answer(&sweep_bundle(&lines, &loads)?)
}

fn sweep_batch(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<BundleLine> = args.plain("lines")?;
    let [x, y, z] = ["load_x_n", "load_y_n", "load_z_n"]
        .map(|name| args.plain::<Series>(name).map(Series::into_vec));
    let loads = BundleLoads { load_x_n: &x?, load_y_n: &y?, load_z_n: &z? };
    answer(&sweep_bundle_batch(&lines, &loads)?)
}

fn standing(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<BundleLine> = args.plain("lines")?;
    let line: String = args.plain("line")?;
    let tension: Force = args.quantity("tension")?;
    let end: LineEnd = args.plain("end")?;
    let load: Vector = args.plain("load")?;
    let load = load.map(|part| part.0);
    answer(&Text(bundle_rest_length_for_tension(&lines, &line, tension, end, load)?))
}

fn elastic_batch(args: &mut Args) -> Result<Value, Failure> {
    let [span, rise, rest_length, weight, axial_rigidity] =
        ["span_m", "rise_m", "rest_length_m", "weight_n_per_m", "axial_rigidity_n"]
            .map(|name| args.plain::<Series>(name).map(Series::into_vec));
    let batch = ElasticBatch {
        span_m: &span?,
        rise_m: &rise?,
        rest_length_m: &rest_length?,
        weight_n_per_m: &weight?,
        axial_rigidity_n: &axial_rigidity?,
    };
    answer(&solve_elastic_batch(&batch)?)
}

/// One number for all lines, or one for each.
#[derive(serde::Deserialize)]
#[serde(untagged)]
pub(super) enum Series {
    One(Number),
    Each(Vec<Number>),
}

/// A number; the bindings hand on as text what is none, and the core refuses it with its index.
#[derive(serde::Deserialize)]
#[serde(untagged)]
pub(super) enum Number {
    Finite(f64),
    Other(Other),
}

#[derive(serde::Deserialize)]
pub(super) enum Other {
    #[serde(rename = "NaN")]
    Nan,
    #[serde(rename = "inf")]
    Infinity,
    #[serde(rename = "-inf")]
    MinusInfinity,
}

impl Number {
    fn value(&self) -> f64 {
        match self {
            Self::Finite(value) => *value,
            Self::Other(Other::Nan) => f64::NAN,
            Self::Other(Other::Infinity) => f64::INFINITY,
            Self::Other(Other::MinusInfinity) => f64::NEG_INFINITY,
        }
    }
}

impl Series {
    pub(super) fn into_vec(self) -> Vec<f64> {
        match self {
            Self::One(number) => vec![number.value()],
            Self::Each(numbers) => numbers.iter().map(Number::value).collect(),
        }
    }
}
