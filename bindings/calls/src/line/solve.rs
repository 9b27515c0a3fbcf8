//! Equilibrium of lines, nets and bundles, and the inverse problems.

use tautwork::line::{
    BundleLine, BundleLoads, Chain, ElasticBatch, ElasticLine, LineEnd, Net, solve_elastic_batch,
    sweep_bundle, sweep_bundle_batch,
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
    call!(line::bundle_rest_length_for_tension(
        &lines: Vec<BundleLine>, &line: String, tension, end: LineEnd, [load]
    ) => Text),
    call!(line::rest_length_for_sag(&line: ElasticLine, sag_below_chord) => Text),
    call!(line::rest_length_for_mid_load_sag(&line: ElasticLine, load, sag_below_chord) => Text),
    call!(line::solve_chain { &Chain }),
    call!(line::solve_net { &Net }),
    call!(line::solve_bundle(&lines: Vec<BundleLine>, [load])),
    Call { name: "line.sweep_bundle", arguments: Some(&["lines", "loads"]), run: sweep },
    Call {
        name: "line.sweep_bundle_batch",
        arguments: Some(&["lines", "load_x_n", "load_y_n", "load_z_n"]),
        run: sweep_batch,
    },
    call!(line::bundle_engagement(&lines: Vec<BundleLine>, up_to)),
];

fn sweep(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<BundleLine> = args.plain("lines")?;
    answer(&sweep_bundle(&lines, &loads(args)?)?)
}

/// Many force vectors.
pub(super) fn loads(args: &mut Args) -> Result<Vec<[Force; 3]>, Failure> {
    let loads: Vec<[Text<Force>; 3]> = args.plain("loads")?;
    Ok(loads.into_iter().map(|load| load.map(|part| part.0)).collect())
}

fn sweep_batch(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<BundleLine> = args.plain("lines")?;
    let [x, y, z] = ["load_x_n", "load_y_n", "load_z_n"].map(|name| args.series(name));
    let loads = BundleLoads { load_x_n: &x?, load_y_n: &y?, load_z_n: &z? };
    answer(&sweep_bundle_batch(&lines, &loads)?)
}

fn elastic_batch(args: &mut Args) -> Result<Value, Failure> {
    let [span, rise, rest_length, weight, axial_rigidity] =
        ["span_m", "rise_m", "rest_length_m", "weight_n_per_m", "axial_rigidity_n"]
            .map(|name| args.series(name));
    let batch = ElasticBatch {
        span_m: &span?,
        rise_m: &rise?,
        rest_length_m: &rest_length?,
        weight_n_per_m: &weight?,
        axial_rigidity_n: &axial_rigidity?,
    };
    answer(&solve_elastic_batch(&batch)?)
}
