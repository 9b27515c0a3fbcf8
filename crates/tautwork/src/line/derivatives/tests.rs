//! Closed forms, signs, differences of the solvers, bad numbers.

use proptest::prelude::*;

use super::*;
use crate::line::*;
use crate::material::{Condition, Stretch};
use crate::quantity::*;

/// Central differences with one step of Richardson's extrapolation: error of the fourth order.
fn richardson(step: f64, f: impl Fn(f64) -> f64) -> f64 {
    let central = |h: f64| (f(h) - f(-h)) / (2.0 * h);
    (4.0 * central(step) - central(2.0 * step)) / 3.0
}

/// The figures of a line, in the order of the answer.
type Figures = [f64; 5];

fn of_line(line: &ElasticLine) -> Figures {
    let s = solve_elastic(line).unwrap();
    [
        s.tension_near.si(),
        s.tension_far.si(),
        s.h.si(),
        s.sag_below_chord.si(),
        s.stretched_length.si(),
    ]
}

fn of_chain(chain: &Chain) -> Figures {
    let s = solve_chain(chain).unwrap();
    let h = s.pull_near[0].si().hypot(s.pull_near[1].si());
    let (near, far) = (s.tension_near.si(), s.tension_far.si());
    [near, far, h, s.sag_below_chord.si(), s.stretched_length.si()]
}

/// Compares derivatives with differences. `step` is a share of `size`, the size of the input; rounding of
/// the figures leaves 1e-13 of them, over the step.
fn compare(name: &str, got: Figures, size: f64, at: impl Fn(f64) -> Figures) {
    let step = 3e-4 * size;
    let here = at(0.0);
    for (i, got) in got.into_iter().enumerate() {
        let want = richardson(step, |d| at(d)[i]);
        let allowed =
            1e-7 * want.abs() + 1e-12 * here[i].abs() / step + 1e-9 * here[i].abs() / size;
        assert!((got - want).abs() <= allowed, "{name}, figure {i}: {got} {want} ± {allowed}");
    }
}

fn elastic(span: f64, rise: f64, rest: f64, w: f64, stretch: Stretch) -> ElasticLine {
    ElasticLine {
        span: span.meters(),
        rise: rise.meters(),
        rest_length: rest.meters(),
        weight: w.newtons_per_meter(),
        stretch,
    }
}

fn linear(ea: f64) -> Stretch {
    Stretch::axial_rigidity(ea.newtons()).unwrap()
}

/// A webbing that stiffens, its strain times a factor.
fn curve(scale: f64) -> Stretch {
    let rows = [(1.0, 0.9), (3.0, 1.7), (6.0, 2.8), (10.0, 4.0)];
    let rows = rows.map(|(t, e)| (t.kilonewtons(), (e * scale).percent()));
    Stretch::table(rows.to_vec()).unwrap()
}

fn line_columns(d: &ElasticDerivatives) -> [(&'static str, Figures); 5] {
    let f = [&d.tension_near, &d.tension_far, &d.h];
    let l = [&d.sag_below_chord, &d.stretched_length];
    let join = |a: fn(&ForceByLine) -> f64, b: fn(&LengthByLine) -> f64| {
        [a(f[0]), a(f[1]), a(f[2]), b(l[0]), b(l[1])]
    };
    [
        ("span", join(|f| f.by_span_n_per_m, |l| l.by_span)),
        ("rise", join(|f| f.by_rise_n_per_m, |l| l.by_rise)),
        ("rest_length", join(|f| f.by_rest_length_n_per_m, |l| l.by_rest_length)),
        ("weight", join(|f| f.by_weight_m, |l| l.by_weight_m2_per_n)),
        ("strain scale", join(|f| f.by_strain_scale_n, |l| l.by_strain_scale_m)),
    ]
}

#[test]
fn a_line_against_differences() {
    for (span, rise, rest, w) in [
        (130.0, -3.0, 127.74, 0.667),
        (130.0, 0.0, 130.0, 0.667),
        (100.0, 30.0, 103.0, 1.5),
        (100.0, -20.0, 115.0, 0.5),
        (20.0, 15.0, 60.0, 2.0),
        (60.0, 5.0, 59.5, 0.01),
    ] {
        for curved in [false, true] {
            let make = |scale: f64| if curved { curve(scale) } else { linear(2.5e5 / scale) };
            let line = elastic(span, rise, rest, w, make(1.0));
            let d = elastic_derivatives(&line).unwrap();
            for (name, got) in line_columns(&d) {
                // A taut line is stiff: its lengths are changed by a little of its stretch.
                let size = match name {
                    "span" | "rise" | "rest_length" => 1.0_f64.max(0.2 * (rest - span).abs()),
                    "weight" => w,
                    _ => 1.0,
                };
                compare(&format!("{name} of {span} {rise} {rest} {curved}"), got, size, |x| {
                    let x = if name == "strain scale" { 1.0 + x } else { x };
                    of_line(&match name {
                        "span" => ElasticLine { span: line.span + x.meters(), ..line.clone() },
                        "rise" => ElasticLine { rise: line.rise + x.meters(), ..line.clone() },
                        "rest_length" => ElasticLine {
                            rest_length: line.rest_length + x.meters(),
                            ..line.clone()
                        },
                        "weight" => {
                            let weight = line.weight + x.newtons_per_meter();
                            ElasticLine { weight, ..line.clone() }
                        }
                        _ => ElasticLine { stretch: make(x), ..line.clone() },
                    })
                });
            }
            assert!(d.residual.si() < 1e-12);
            assert_eq!(d.h.by_axial_rigidity.is_none(), curved);
            if let Some(by_rigidity) = d.h.by_axial_rigidity {
                assert!((by_rigidity * -2.5e5 / d.h.by_strain_scale_n - 1.0).abs() < 1e-12);
            }
        }
    }
}

#[test]
fn signs_of_a_taut_line() {
    let d = elastic_derivatives(&elastic(130.0, -3.0, 127.74, 0.667, linear(2.5e5))).unwrap();
    for t in [&d.tension_near, &d.tension_far, &d.h] {
        assert!(t.by_span_n_per_m > 0.0 && t.by_rest_length_n_per_m < 0.0);
        assert!(t.by_axial_rigidity.unwrap() > 0.0 && t.by_strain_scale_n < 0.0);
        assert!(t.by_weight_m > 0.0);
        // The far anchor is lower: raising it shortens the chord.
        assert!(t.by_rise_n_per_m < 0.0);
    }
    let sag = &d.sag_below_chord;
    assert!(sag.by_span < 0.0 && sag.by_rest_length > 0.0 && sag.by_weight_m2_per_n > 0.0);
    assert!(sag.by_axial_rigidity_m_per_n.unwrap() < 0.0 && sag.by_strain_scale_m > 0.0);
    assert!(d.stretched_length.by_span > 0.99 && d.stretched_length.by_span < 1.01);
}

/// A taut line without weight: T = EA (c / L - 1), sag w L c cos / (8 T) for a first weight.
#[test]
fn a_line_without_weight() {
    let (span, rise, rest, ea) = (30.3, 40.4, 50.0, 1e5);
    let chord = 50.5;
    let d = elastic_derivatives(&elastic(span, rise, rest, 0.0, linear(ea))).unwrap();
    // Where nothing should come out, EA / T times 1e-15 is left of terms of order one.
    let close = |got: f64, want: f64| {
        assert!((got - want).abs() < 1e-8 * want.abs().max(1e-4), "{got} {want}");
    };
    close(d.tension_near.by_span_n_per_m, ea / rest * span / chord);
    close(d.tension_far.by_rise_n_per_m, ea / rest * rise / chord);
    close(d.tension_near.by_rest_length_n_per_m, -ea * chord / rest / rest);
    close(d.tension_near.by_axial_rigidity.unwrap(), 0.01);
    // Half of the weight of the line is carried by each anchor: T changes by ∓ w L sin / 2.
    close(d.tension_near.by_weight_m, -0.5 * rest * rise / chord);
    close(d.tension_far.by_weight_m, 0.5 * rest * rise / chord);
    close(d.stretched_length.by_rise, rise / chord);
    close(d.stretched_length.by_rest_length, 0.0);
    close(d.sag_below_chord.by_weight_m2_per_n, rest * chord / (8.0 * 1000.0));
    close(d.sag_below_chord.by_span, 0.0);
}

/// The two forms of the derivative by the weight meet.
#[test]
fn a_line_hardly_heavier_than_none() {
    let at = |w: f64| elastic_derivatives(&elastic(60.0, 10.0, 60.0, w, linear(1e5))).unwrap();
    // T is 1380 N: the switch is at 2.3e-4 N/m. From both sides the derivatives by the weight go on
    // straight to the same value there.
    let column = |w: f64| line_columns(&at(w))[3].1;
    let [lower, low, high, higher] = [2.1e-4, 2.2e-4, 2.4e-4, 2.5e-4].map(column);
    for i in 0..5 {
        let (below, above) = (2.0 * low[i] - lower[i], 2.0 * high[i] - higher[i]);
        // H hardly knows the weight: its rounding is that of the tensions, which do.
        let size = if i < 3 { low[0].abs() } else { below.abs().max(1e-3) };
        assert!((below - above).abs() <= 1e-6 * size, "figure {i}: {below} {above}");
    }
}

fn chains() -> Vec<Chain> {
    let piece = |rest: f64, w: f64, wind: f64, stretch: Stretch| ChainPiece {
        wind: [0.0, wind, 0.0].map(LineLoad::from_si),
        ..ChainPiece::new(rest.meters(), w.newtons_per_meter(), stretch)
    };
    let load =
        |at: f64, force: [f64; 3]| ChainLoad { at: at.meters(), force: force.map(Force::from_si) };
    let chain = |far: [f64; 3], pieces: Vec<ChainPiece>, loads: Vec<ChainLoad>| Chain {
        near: [1.0, -2.0, 3.0].map(Length::from_si),
        far: far.map(Length::from_si),
        pieces,
        loads,
        samples: 2,
    };
    let wet = Condition {
        temperature_change: Quantity::from_si(0.0),
        expansion: Quantity::from_si(0.0),
        wet_change: (-2.0).percent(),
        creep: 0.5.percent(),
        permanent_set: 0.0.percent(),
    };
    let mut three = vec![
        piece(20.0, 0.6, 0.2, linear(5e4)),
        piece(41.0, 0.3, 0.0, curve(1.0)),
        piece(5.0, 3.0, -0.1, linear(1e6)),
    ];
    three[1].condition = Some(wet);
    vec![
        // A person in the middle, and off it.
        chain(
            [131.0, -2.0, 0.0],
            vec![piece(127.74, 0.667, 0.0, linear(2.5e5))],
            vec![load(63.87, [0.0, 0.0, -800.0])],
        ),
        chain(
            [131.0, -2.0, 10.0],
            vec![piece(128.0, 0.667, 0.3, curve(1.0))],
            vec![load(30.0, [20.0, 50.0, -800.0])],
        ),
        // Pieces and loads of all kinds; a slack one.
        chain(
            [64.0, 1.0, 8.0],
            three.clone(),
            vec![
                load(40.0, [0.0, 0.0, -50.0]),
                load(15.0, [0.0, 30.0, -700.0]),
                load(63.0, [-40.0, 0.0, 20.0]),
            ],
        ),
        chain(
            [40.0, 5.0, -4.0],
            three,
            vec![load(35.0, [10.0, 0.0, -90.0]), load(50.0, [0.0, -20.0, -10.0])],
        ),
    ]
}

fn chain_rows(
    d: &ChainDerivatives,
    force: impl Fn(&ForceByChain) -> f64,
    length: impl Fn(&LengthByChain) -> f64,
) -> Figures {
    [
        force(&d.tension_near),
        force(&d.tension_far),
        force(&d.h_near),
        length(&d.sag_below_chord),
        length(&d.stretched_length),
    ]
}

#[test]
fn a_chain_against_differences() {
    for (c, chain) in chains().into_iter().enumerate() {
        let d = chain_derivatives(&chain).unwrap();
        let changed = |change: &dyn Fn(&mut Chain)| {
            let mut chain = chain.clone();
            change(&mut chain);
            of_chain(&chain)
        };
        for i in 0..chain.loads.len() {
            let rows = [
                chain_rows(&d, |f| f.by_load_x[i], |l| l.by_load_x_m_per_n[i]),
                chain_rows(&d, |f| f.by_load_y[i], |l| l.by_load_y_m_per_n[i]),
                chain_rows(&d, |f| f.by_load_z[i], |l| l.by_load_z_m_per_n[i]),
            ];
            for (axis, got) in rows.into_iter().enumerate() {
                compare(&format!("chain {c}, load {i} {axis}"), got, 100.0, |x| {
                    changed(&|chain| chain.loads[i].force[axis] += x.newtons())
                });
            }
            let got = chain_rows(&d, |f| f.by_load_at_n_per_m[i], |l| l.by_load_at[i]);
            compare(&format!("chain {c}, place of load {i}"), got, 1.0, |x| {
                changed(&|chain| chain.loads[i].at += x.meters())
            });
        }
        for i in 0..chain.pieces.len() {
            let got = chain_rows(&d, |f| f.by_rest_length_n_per_m[i], |l| l.by_rest_length[i]);
            compare(&format!("chain {c}, length of piece {i}"), got, 1.0, |x| {
                changed(&|chain| chain.pieces[i].rest_length += x.meters())
            });
            let got = chain_rows(&d, |f| f.by_strain_scale_n[i], |l| l.by_strain_scale_m[i]);
            let ea = chain.pieces[i].stretch.tangent_rigidity(0.0.newtons()).unwrap().si();
            let curved = d.h_near.by_axial_rigidity[i].is_none();
            compare(&format!("chain {c}, strain of piece {i}"), got, 1.0, |x| {
                changed(&|chain| {
                    let scale = 1.0 + x;
                    chain.pieces[i].stretch =
                        if curved { curve(scale) } else { linear(ea / scale) };
                })
            });
        }
        for axis in 0..3 {
            let far = chain_rows(&d, |f| f.by_far_n_per_m[axis], |l| l.by_far[axis]);
            compare(&format!("chain {c}, far {axis}"), far, 1.0, |x| {
                changed(&|chain| chain.far[axis] += x.meters())
            });
            let near = chain_rows(&d, |f| f.by_near_n_per_m[axis], |l| l.by_near[axis]);
            compare(&format!("chain {c}, near {axis}"), near, 1.0, |x| {
                changed(&|chain| chain.near[axis] += x.meters())
            });
        }
    }
}

#[test]
fn signs_under_a_person() {
    let d = chain_derivatives(&chains()[0]).unwrap();
    // More weight is a force further down.
    assert!(d.tension_near.by_load_z[0] < 0.0 && d.sag_below_chord.by_load_z_m_per_n[0] < 0.0);
    assert!(d.tension_near.by_rest_length_n_per_m[0] < 0.0);
    assert!(d.sag_below_chord.by_rest_length[0] > 0.0);
    assert!(d.tension_near.by_axial_rigidity[0].unwrap() > 0.0);
    assert!(d.tension_near.by_far_n_per_m[0] > 0.0 && d.tension_near.by_near_n_per_m[0] < 0.0);
    // Pulled towards the far end, the near side carries more and the far side less.
    assert!(d.tension_near.by_load_x[0] > 0.0 && d.tension_far.by_load_x[0] < 0.0);
}

#[test]
fn an_uplift_leaves_no_sag() {
    let mut chain = chains().remove(0);
    chain.loads[0].force[2] = 900.0.newtons();
    let d = chain_derivatives(&chain).unwrap();
    assert!(solve_chain(&chain).unwrap().sag_below_chord.si() < 1e-9);
    assert_eq!(d.sag_below_chord.by_load_z_m_per_n, [0.0]);
}

#[test]
fn refused_chains() {
    let mut chain = chains().remove(2);
    chain.loads[0].at = chain.loads[1].at;
    assert!(chain_derivatives(&chain).unwrap_err().to_string().contains("loads[0].at"));
    chain.loads[0].at = 0.0.meters();
    assert!(chain_derivatives(&chain).is_err());
    let mut upright = chains().remove(0);
    upright.far = [1.0, -2.0, 99.0].map(Length::from_si);
    assert!(chain_derivatives(&upright).unwrap_err().to_string().contains("far"));
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -2.0..200.0_f64,
        1 => prop_oneof![
            Just(0.0), Just(-0.0), Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY),
            Just(f64::MIN_POSITIVE), Just(5e-324), Just(1e300), Just(-1e300), Just(1e-300),
            Just(f64::MAX), Just(1e10), Just(1e-10),
        ],
    ]
}

/// A number that is not finite becomes null in JSON; the only null that belongs there is a rigidity of a
/// curve.
fn sound(value: &serde_json::Value) -> bool {
    match value {
        serde_json::Value::Null => false,
        serde_json::Value::Array(items) => items.iter().all(sound),
        serde_json::Value::Object(fields) => fields.values().all(sound),
        _ => true,
    }
}

proptest! {
    #[test]
    fn bad_numbers_do_no_harm(x in prop::array::uniform9(any_number())) {
        let Ok(stretch) = Stretch::axial_rigidity((x[0] * 1e3).newtons()) else { return Ok(()) };
        let line = elastic(x[1], x[2], x[3], x[4], stretch.clone());
        if let Ok(d) = elastic_derivatives(&line) {
            let value = serde_json::to_value(&d).unwrap();
            prop_assert!(sound(&value), "{value}");
        }
        let zero = 0.0.meters();
        let chain = Chain {
            near: [zero; 3],
            far: [line.span, zero, line.rise],
            pieces: vec![ChainPiece::new(line.rest_length, line.weight, stretch)],
            loads: vec![ChainLoad { at: x[5].meters(), force: [x[6], x[7], x[8]].map(Force::from_si) }],
            samples: 2,
        };
        if let Ok(d) = chain_derivatives(&chain) {
            let value = serde_json::to_value(&d).unwrap();
            prop_assert!(sound(&value), "{value}");
        }
    }
}
