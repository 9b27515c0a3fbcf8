//! Properties over random inputs, bad numbers included.

use nalgebra::{Rotation3, Vector3};

use super::*;

/// Any number, the bad ones often.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => -1e5..1e5_f64,
        1 => prop::num::f64::ANY,
        1 => prop::sample::select(vec![0.0, -0.0, 1e-320, 1e300, -1e300, 1.7e308, f64::NAN, f64::INFINITY]),
    ]
}

fn any_three() -> impl Strategy<Value = [f64; 3]> {
    [any_number(), any_number(), any_number()]
}

fn three(range: std::ops::Range<f64>) -> impl Strategy<Value = [f64; 3]> {
    [range.clone(), range.clone(), range]
}

fn rule() -> impl Strategy<Value = InteractionRule> {
    prop::sample::select(RULES.to_vec())
}

/// All numbers in what would be written for the bindings are finite: JSON has null for others.
fn finite(answer: &impl serde::Serialize) {
    let text = serde_json::to_string(answer).unwrap();
    for bad in ["null", "NaN", "inf"] {
        assert!(!text.contains(bad), "{text}");
    }
}

prop_compose! {
    fn some_group()(
        places in prop::collection::vec(three(-0.3..0.3), 3..7),
        stiffness in prop::collection::vec((3.0..7.0_f64, 3.0..7.0_f64), 7),
        toes in prop::collection::vec(three(-0.3..0.3), 0..5),
        pull in three(-1.0..1.0),
        at in three(-0.5..0.5),
    ) -> BoltGroup {
        BoltGroup {
            bolts: places.iter().zip(stiffness).enumerate().map(|(i, (p, (axial, shear)))| PlateBolt {
                name: format!("{i}"),
                // In one plane, but for a little.
                position: point([p[0], p[1], 0.02 * p[2]]),
                axial_stiffness: 10.0_f64.powf(axial).newtons_per_meter(),
                shear_stiffness: 10.0_f64.powf(shear).newtons_per_meter(),
                limits: Some(limits(15.0, 25.0, RULES[i % 7])),
            }).collect(),
            normal: [0.0, 0.0, 1.0],
            bearing: toes.iter().map(|p| BearingPoint {
                position: point([p[0], p[1], 0.0]),
                stiffness: 1e6.newtons_per_meter(),
            }).collect(),
            pull: newtons([1e3 * pull[0], 1e3 * pull[1], 1e3 * (pull[2] + 0.5)]),
            pull_at: point(at),
        }
    }
}

fn vector<Q: Quantity>(q: [Q; 3]) -> Vector3<f64> {
    Vector3::from(q.map(Quantity::si))
}

fn turned<Q: Quantity>(q: [Q; 3], by: &Rotation3<f64>) -> [Q; 3] {
    let v = by * vector(q);
    [v.x, v.y, v.z].map(Q::from_si)
}

proptest! {
    #[test]
    fn a_bolt_never_panics_or_gives_a_bad_number(
        axis in any_three(), force in any_three(), tension in any_number(), shear in any_number(),
        edge in any_number(), rule in rule(),
    ) {
        let mut limits = limits(tension, shear, rule);
        limits.reductions.push(BoltReduction {
            name: "edge".to_owned(), tension: edge.ratio(), shear: 0.5.ratio(),
        });
        if let Ok(used) = bolt_use(&limits, axis, newtons(force)) {
            finite(&used);
            prop_assert!(used.tension.si() >= 0.0 && used.compression.si() >= 0.0);
        }
    }

    #[test]
    fn a_bolt_answers_alike_in_every_frame_and_in_proportion(
        force in three(-2e4..2e4), axis in three(0.1..1.0), turn in three(-3.0..3.0), rule in rule(),
        scale in 0.1..10.0_f64,
    ) {
        let limits = limits(15.0, 25.0, rule);
        let here = bolt_use(&limits, axis, newtons(force)).unwrap();
        let by = Rotation3::new(Vector3::from(turn));
        let axis_there = (by * Vector3::from(axis)).into();
        let there = bolt_use(&limits, axis_there, turned(newtons(force), &by)).unwrap();
        prop_assert!((here.utilisation.si() - there.utilisation.si()).abs() < 1e-9);
        let scaled = bolt_use(&limits, axis, newtons(force.map(|f| f * scale))).unwrap();
        prop_assert!((scaled.utilisation.si() - scale * here.utilisation.si()).abs() < 1e-9);
        // At the scale given the limit is reached.
        if let Some(reach) = here.scale {
            let at = bolt_use(&limits, axis, newtons(force.map(|f| f * reach.si()))).unwrap();
            prop_assert!((at.utilisation.si() - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn more_tension_or_shear_uses_up_more_and_stronger_rules_less(
        n in 0.0..2.0_f64, v in 0.0..2.0_f64, more in 0.0..1.0_f64, rule in rule(),
    ) {
        let here = rule.utilisation(n, v);
        prop_assert!(rule.utilisation(n + more, v) >= here - 1e-12);
        prop_assert!(rule.utilisation(n, v + more) >= here - 1e-12);
        prop_assert!(here >= v.max(n) - 1e-12 && here <= n + v + 1e-12);
        // Sharper exponents ask for less.
        let by = |rule: InteractionRule| rule.utilisation(n, v);
        let order = [
            InteractionRule::Linear, InteractionRule::ThreeHalves, InteractionRule::FiveThirds,
            InteractionRule::Quadratic,
        ];
        prop_assert!(order.windows(2).all(|two| by(two[0]) >= by(two[1]) - 1e-12));
        if rule != InteractionRule::En199318 {
            prop_assert_eq!(rule.utilisation(n, v), rule.utilisation(v, n));
        }
    }

    #[test]
    fn a_plate_is_in_balance(group in some_group()) {
        match bolt_group(&group) {
            Err(AnchorError::NotHeld) => {}
            Err(error) => prop_assert!(false, "{}", error),
            Ok(held) => {
                let n = Vector3::from(group.normal);
                let (mut force, mut moment) = (Vector3::zeros(), Vector3::zeros());
                for (bolt, forces) in group.bolts.iter().zip(&held.bolts) {
                    let (up, down) = (forces.tension.si(), forces.pressed.si());
                    prop_assert!(up >= 0.0 && down >= 0.0 && (up == 0.0 || down == 0.0));
                    let f = vector(forces.shear_force) + n * (up - down);
                    force += f;
                    moment += vector(bolt.position).cross(&f);
                }
                for (toe, f) in group.bearing.iter().zip(&held.bearing) {
                    prop_assert!(f.si() >= 0.0);
                    force -= n * f.si();
                    moment -= vector(toe.position).cross(&(n * f.si()));
                }
                let pull = vector(group.pull);
                prop_assert!((force - pull).norm() < 1e-6 * pull.norm());
                let wanted = vector(group.pull_at).cross(&pull);
                prop_assert!((moment - wanted).norm() < 1e-6 * pull.norm());
            }
        }
    }

    #[test]
    fn a_plate_answers_alike_in_every_frame_and_in_proportion(
        group in some_group(), turn in three(-3.0..3.0), shift in three(-5.0..5.0),
    ) {
        let by = Rotation3::new(Vector3::from(turn));
        let moved = |p: [Length; 3]| {
            let q = vector(turned(p, &by)) + Vector3::from(shift);
            [q.x, q.y, q.z].map(Length::from_si)
        };
        let mut there = group.clone();
        there.normal = (by * Vector3::from(group.normal) * 3.0).into();
        there.pull = turned(group.pull, &by).map(|f| f * 2.0);
        there.pull_at = moved(group.pull_at);
        for bolt in &mut there.bolts {
            bolt.position = moved(bolt.position);
        }
        for toe in &mut there.bearing {
            toe.position = moved(toe.position);
        }
        if let (Ok(a), Ok(b)) = (bolt_group(&group), bolt_group(&there)) {
            // Bolts in one row pry: their forces, and with them rounding, may be many times the pull.
            let forces = a.bolts.iter().map(|b| b.tension.si().max(b.shear.si()));
            let size = forces.fold(vector(group.pull).norm(), f64::max);
            for (a, b) in a.bolts.iter().zip(&b.bolts) {
                prop_assert!((2.0 * a.tension.si() - b.tension.si()).abs() < 1e-5 * size);
                prop_assert!((2.0 * a.shear.si() - b.shear.si()).abs() < 1e-5 * size);
            }
        }
    }

    #[test]
    fn a_plate_never_panics_or_gives_a_bad_number(
        mut group in some_group(), normal in any_three(), place in any_three(), pull in any_three(),
        at in any_three(), stiffness in [any_number(), any_number()], which in 0..6_usize,
    ) {
        match which {
            0 => group.normal = normal,
            1 => group.bolts[0].position = point(place),
            2 => group.pull = newtons(pull),
            3 => group.pull_at = point(at),
            4 => group.bolts[0].axial_stiffness = stiffness[0].newtons_per_meter(),
            _ => {
                group.bolts[0].shear_stiffness = stiffness[0].newtons_per_meter();
                group.bearing.push(BearingPoint {
                    position: point(place),
                    stiffness: stiffness[1].newtons_per_meter(),
                });
            }
        }
        if let Ok(held) = bolt_group(&group) {
            finite(&held);
        }
    }

    #[test]
    fn blocks_and_trunks_never_panic_or_give_bad_numbers(x in prop::array::uniform9(any_number())) {
        let block = Block {
            mass: x[0].kilograms(),
            friction: x[1].ratio(),
            slope: x[2].degrees(),
            center_behind_edge: x[3].meters(),
            center_height: x[4].meters(),
            pull: x[5].newtons(),
            pull_angle: x[6].degrees(),
            pull_height: x[7].meters(),
            pull_behind_edge: x[8].meters(),
        };
        for block in [block, Block { slope: 0.1.radians(), pull_angle: (-0.3).radians(), ..block }] {
            if let Ok(hold) = block_hold(&block) {
                finite(&hold);
            }
        }
        let trunk = Trunk {
            diameter: x[0].meters(),
            sling_height: x[1].meters(),
            pull: x[2].newtons(),
            pull_angle: x[3].degrees(),
            strength: x[4].pascals(),
        };
        for trunk in [trunk, Trunk { pull_angle: 0.5.radians(), ..trunk }] {
            if let Ok(stress) = tree_stress(&trunk) {
                finite(&stress);
            }
        }
    }

    #[test]
    fn more_weight_and_friction_hold_more(
        mass in 10.0..1e4_f64, mu in 0.3..1.0_f64, slope in -15.0..15.0_f64, angle in -30.0..60.0_f64,
        more in 1.0..2.0_f64,
    ) {
        let block = Block {
            mass: mass.kilograms(),
            friction: mu.ratio(),
            slope: slope.degrees(),
            center_behind_edge: 0.5.meters(),
            center_height: 0.5.meters(),
            pull: 1.0.kilonewtons(),
            pull_angle: angle.degrees(),
            pull_height: 0.4.meters(),
            pull_behind_edge: 0.1.meters(),
        };
        let pull = |block: &Block| {
            let hold = block_hold(block).unwrap();
            (hold.sliding.unwrap().si(), hold.tipping.map_or(f64::INFINITY, Quantity::si))
        };
        let here = pull(&block);
        let heavy = pull(&Block { mass: (more * mass).kilograms(), ..block });
        prop_assert!((heavy.0 - more * here.0).abs() < 1e-9 * heavy.0.max(1.0));
        prop_assert!(heavy.1 >= here.1 * (1.0 - 1e-12));
        let rough = block_hold(&Block { friction: (more * mu).ratio(), ..block }).unwrap();
        prop_assert!(rough.sliding.is_none_or(|s| s.si() >= here.0 - 1e-9));
        let high = pull(&Block { pull_height: 0.8.meters(), ..block });
        prop_assert!(high.1 <= here.1 && high.0 == here.0);
    }

    #[test]
    fn hitches_and_slings_never_panic_or_give_bad_numbers(
        x in prop::array::uniform8(any_number()), pulled in 0..30_usize, form in 0..5_usize,
    ) {
        let derating = |low: f64, high: f64| Derating {
            kind: DeratingKind::Knot,
            name: "loop".to_owned(),
            low: low.ratio(),
            high: high.ratio(),
            source: "test".to_owned(),
        };
        let form = match form {
            0 => HitchForm::Straight,
            1 => HitchForm::Choker { choke_angle: Some(x[0].degrees()) },
            2 => HitchForm::Girth { choke_angle: None },
            3 => HitchForm::Basket { v_angle: x[0].degrees() },
            _ => HitchForm::Wrap {
                pulled,
                v_angle: (x[0].abs() % 3.2).radians(),
                knot: derating(x[1].abs() % 1.1, 1.0),
                knot_wrap: x[2].degrees(),
                least_friction: x[3].ratio(),
                greatest_friction: x[4].ratio(),
            },
        };
        let hitch = Hitch {
            form,
            strength: BreakingStrength(x[5].newtons()),
            factors: vec![derating(x[6], x[7]), derating(0.5, 1.0)][usize::from(pulled % 2 == 0)..].to_vec(),
        };
        if let Ok(strength) = hitch_strength(&hitch) {
            finite(&strength);
            prop_assert!(strength.low <= strength.high);
        }
        let (d, g) = (x[0].meters(), x[1].pascals());
        if let Ok(mass) = wire_rope_sling_limit(d, g, x[2].ratio(), x[3].ratio()) {
            prop_assert!(mass.si().is_finite());
        }
        if let Ok(factor) = choke_angle_factor(x[4].degrees()) {
            prop_assert!((0.49..=1.0).contains(&factor.si()));
        }
        if let Ok(factor) = sling_mode_factor(SlingMode::TwoLegs, x[5].degrees()) {
            finite(&factor);
        }
    }
}
