//! Random anchors.

use proptest::prelude::*;

use super::*;

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -5.0..5.0_f64,
        2 => (-9.0..9.0_f64).prop_map(|e| 10.0_f64.powf(e)),
        1 => prop::sample::select(vec![0.0, -1.0, 1e-320, 1e300, 1e-300]),
    ]
}

fn place() -> impl Strategy<Value = String> {
    [number(), number(), number()]
        .prop_map(|[x, y, z]| format!("[\"{x:e} m\", \"{y:e} m\", \"{z:e} m\"]"))
}

fn begin() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => place().prop_map(|p| format!("fixing = {p}")),
        2 => (0..4).prop_map(|i| format!("from = \"k{i}\"")),
        1 => Just("from = \"tree\"".to_owned()),
    ]
}

fn leg() -> impl Strategy<Value = String> {
    let end =
        prop_oneof![1 => Just(String::new()), 1 => (0..4).prop_map(|i| format!(", to = \"k{i}\""))];
    let slack = prop_oneof![2 => Just(String::new()), 1 => number().prop_map(|s| format!(", slack = \"{s:e} m\""))];
    let cord = prop_oneof![
        1 => (1..4).prop_map(|n| format!("cordage = \"w\", strands = {n}")),
        2 => number().prop_map(|k| format!("stiffness = \"{k:e} kN/m\"")),
    ];
    let part = prop_oneof![
        3 => Just(String::new()),
        1 => number().prop_map(|s| format!(", part = [{{ name = \"p\", strength = \"{s:e} kN\" }}]")),
    ];
    (begin(), end, slack, cord, part, number()).prop_map(
        |(begin, end, slack, cord, part, strength)| {
            format!("{begin}{end}{slack}, {cord}{part}, strength = \"{strength:e} kN\"")
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn random_anchors_are_planned_or_refused_with_a_reason(
        knots in prop::collection::vec(place(), 0..4),
        tree in place(),
        legs in prop::collection::vec(leg(), 1..8),
        pull in [number(), number(), number()],
    ) {
        let knots: Vec<_> =
            knots.iter().enumerate().map(|(i, p)| format!("{{ name = \"k{i}\", position = {p} }}")).collect();
        let legs: Vec<_> = legs.iter().enumerate().map(|(i, l)| format!("{{ name = \"l{i}\", {l} }}")).collect();
        let tree = if legs.iter().any(|leg| leg.contains("tree")) {
            format!("fixing = [{{ name = \"tree\", position = {tree}, strength = \"9 kN\" }}]")
        } else {
            String::new()
        };
        let text = document(&format!("knot = [{}]\n{tree}\nleg = [{}]", knots.join(", "), legs.join(", ")));
        match parse(&text) {
            Err(error) => prop_assert!(!error.mistakes().is_empty()),
            Ok(rig) => {
                let pull = pull.map(|p| (p * 1e3).newtons());
                let spans = lines::spans(&rig).unwrap();
                let pull = Pull { force: pull, ring_m: [20.0, 0.0, -2.0] };
                if let Ok(plan) = plan(&rig, &spans, &rig.anchor[1], &pull, "the test") {
                    prop_assert!(plan.legs.iter().all(|leg| leg.tension.si().is_finite()));
                    // What the fixings take up is the pull.
                    let share: f64 = plan.legs.iter().filter_map(|l| l.share).map(Quantity::si).sum();
                    prop_assert!(plan.legs.is_empty() || (share - 1.0).abs() < 1e-5, "{share} {plan:?}");
                    for loss in plan.lost.iter().chain(&plan.pairs) {
                        prop_assert!(!loss.parts.is_empty() && !loss.verdict.is_empty());
                        prop_assert!(loss.extension.is_none_or(|e| e.si().is_finite()));
                        prop_assert!(loss.verdict.starts_with("held") == loss.holds, "{loss:?}");
                    }
                }
            }
        }
    }
}
