use proptest::prelude::*;

use super::super::{Friction, Ordinary, Rope, System, ordinary, ordinary_systems};
use super::*;
use crate::quantity::*;

fn haul(system: Ordinary, efficiency: f64) -> Haul {
    Haul {
        system: system.into(),
        friction: Some(Friction::Fixed { efficiency: efficiency.ratio() }),
        load: 1000.0.newtons(),
        lift: 12.0.meters(),
        throw: 3.0.meters(),
        back_slip: 0.0.meters(),
        line_length: 0.0.meters(),
        line_rigidity: None,
        system_rigidity: None,
        people: 2,
        pull_each: 250.0.newtons(),
        hand_speed: 0.5.meters_per_second(),
        reset_time: 30.0.seconds(),
    }
}

const ALL: [Ordinary; 7] = [
    Ordinary::Redirect,
    Ordinary::TwoToOne,
    Ordinary::ThreeToOne,
    Ordinary::FourToOne,
    Ordinary::FiveToOne,
    Ordinary::SixToOne,
    Ordinary::NineToOne,
];

fn all() -> Vec<HaulWith> {
    ALL.map(Into::into).to_vec()
}

fn own(name: &str, system: System) -> HaulWith {
    HaulWith::Own(OwnSystem { name: name.to_owned(), system })
}

#[test]
fn an_own_system_hauls_like_the_ordinary_one_it_is() {
    for about in ordinary_systems() {
        // A throw short enough for the blocks of all of them.
        let one = Haul { throw: 0.5.meters(), ..haul(about.system, 0.83) };
        let system = ordinary(about.system, Friction::Fixed { efficiency: 0.83.ratio() });
        let mine = Haul { system: own("mine", system), friction: None, ..one.clone() };
        let (one, mine) = (haul_work(&one).unwrap(), haul_work(&mine).unwrap());
        assert_eq!(mine.system, "mine");
        assert_eq!(HaulWork { system: one.system.clone(), ..mine }, one);
    }
}

#[test]
fn systems_compare_with_one_of_ones_own() {
    let friction = Friction::Fixed { efficiency: 0.9.ratio() };
    // A 7:1, which is no ordinary system: one rope with three sheaves at the anchor, three on the load.
    let seven = own("seven", super::super::tackle(&[7], false, friction).unwrap());
    let mut lift = haul(Ordinary::Redirect, 0.9);
    // 192 N in all: less than the 194 N of a 6:1, more than the 191.7 N of this.
    lift.pull_each = 96.0.newtons();
    let mut systems = all();
    systems.push(seven.clone());
    let hauls = compare_hauls(&lift, &systems).unwrap();
    let found = hauls.each.last().unwrap();
    let by_hand: f64 = (0..7).map(|k| 0.9_f64.powi(k)).sum();
    assert!((found.actual_advantage.si() - by_hand).abs() < 1e-9);
    assert_eq!(hauls.least.as_deref(), Some("seven"));
    let text = serde_json::to_string(&seven).unwrap();
    assert_eq!(serde_json::from_str::<HaulWith>(&text).unwrap(), seven);
    let wrong = serde_json::from_str::<HaulWith>("\"twelve_to_one\"").unwrap_err().to_string();
    assert!(wrong.contains("unknown variant `twelve_to_one`"), "{wrong}");
    assert!(serde_json::from_str::<HaulWith>("7").is_err());
}

#[test]
fn an_own_throw_ends_where_bodies_meet() {
    let at = |z: f64| [0.0.meters(), 0.0.meters(), z.meters()];
    let friction = Friction::Fixed { efficiency: 0.9.ratio() };
    let system = System::new()
        .anchor("tree", at(0.0))
        .load("person", at(-4.0))
        .hand("hands", at(1.0))
        .rope(Rope::new("rope", "tree", "hands").over("person", friction));
    let mut lift = haul(Ordinary::Redirect, 0.9);
    (lift.system, lift.friction) = (own("two", system), None);
    assert_eq!(haul_work(&lift).unwrap().strokes, 4);
    lift.throw = 4.5.meters();
    let says = haul_work(&lift).unwrap_err().to_string();
    assert!(says.contains("throw is 4.5 m; it must be at most 4 m"), "{says}");
}

#[test]
fn without_loss_the_work_is_that_of_the_lift() {
    for (system, ideal) in ALL.into_iter().zip([1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 9.0]) {
        let work = haul_work(&haul(system, 1.0)).unwrap();
        assert!((work.work.si() - 12_000.0).abs() < 1e-8, "{system:?}");
        assert!((work.rope_through_hands.si() - 12.0 * ideal).abs() < 1e-9);
        assert!((work.hand_force.si() - 1000.0 / ideal).abs() < 1e-9);
        assert_eq!((work.strokes, work.resets), (4, 3));
        assert!(work.lost_at_sheaves.si().abs() < 1e-8);
        assert!((work.time.si() - (24.0 * ideal + 90.0)).abs() < 1e-9);
    }
}

// Counted by hand: 3 m of throw, 0.2 m back at each reset, 12 m of lift: 3, 5.8, 8.6, 11.4, 14.2 m.
#[test]
fn back_slip_costs_strokes() {
    let mut haul = haul(Ordinary::ThreeToOne, 1.0);
    haul.back_slip = 0.2.meters();
    let work = haul_work(&haul).unwrap();
    assert_eq!(work.strokes, 5);
    assert!((work.rope_through_hands.si() - 3.0 * (12.0 + 0.8)).abs() < 1e-9);
    assert!((work.lost_at_resets.si() - 800.0).abs() < 1e-8);
}

// 1 kN on 40 m of 20 kN stretch it by 2 m; 3:1 without loss, each part 3 m at a third of a kilonewton, four
// parts (the hand's too) of 10 kN: 4 · 333.3 N · 3 m / 10 kN / 3 = 0.1333 m a stroke.
#[test]
fn stretch_is_pulled_in_first() {
    let mut haul = haul(Ordinary::ThreeToOne, 1.0);
    (haul.line_length, haul.line_rigidity) = (40.0.meters(), Some(20.0.kilonewtons()));
    haul.system_rigidity = Some(10.0.kilonewtons());
    let work = haul_work(&haul).unwrap();
    assert!((work.line_stretch.si() - 2.0).abs() < 1e-12);
    let parts = work.rope_in_system.si() / 3.0;
    let lost = parts * 1000.0 / 3.0 * 3.0 / 10e3 / 3.0;
    assert!((work.lost_each_stroke.si() - lost).abs() < 1e-12);
    // 14 m at 3 m less 0.1 m a stroke.
    assert_eq!(work.strokes, 5);
    assert!((work.stored.si() - 1000.0).abs() < 1e-9);
    let books = work.raised.si() + work.stored.si() + work.lost_at_resets.si();
    assert!((work.work.si() - books).abs() < 1e-8 && work.lost_at_sheaves.si().abs() < 1e-8);
}

// A 3:1 with real pulleys raises one person with two to three pulling (common practice, no source).
#[test]
fn two_to_three_raise_one_with_a_three_to_one() {
    for efficiency in [0.7, 0.83, 0.9] {
        for pull in [150.0, 200.0] {
            let mut haul = haul(Ordinary::ThreeToOne, efficiency);
            (haul.load, haul.pull_each) = ((85.0 * 9.81).newtons(), pull.newtons());
            let needed = haul_work(&haul).unwrap().people_needed;
            assert!((2..=3).contains(&needed), "{efficiency} {pull}: {needed}");
        }
    }
}

#[test]
fn more_loss_asks_for_more_hands_and_a_higher_system() {
    let least = |efficiency| compare_hauls(&haul(Ordinary::Redirect, efficiency), &all()).unwrap();
    let (good, poor) = (least(0.95), least(0.6));
    assert_eq!(good.least.as_deref(), Some("three_to_one"));
    assert_eq!(poor.least.as_deref(), Some("four_to_one"));
    for (a, b) in good.each.iter().zip(&poor.each) {
        assert!(a.hand_force <= b.hand_force && a.work <= b.work);
    }
    let mut weak = haul(Ordinary::Redirect, 0.7);
    weak.pull_each = 1.0.newtons();
    assert_eq!(compare_hauls(&weak, &all()).unwrap().least, None);
}

#[test]
fn wrong_hauls_say_why() {
    let says = |change: &dyn Fn(&mut Haul), part: &str| {
        let mut haul = haul(Ordinary::ThreeToOne, 0.8);
        change(&mut haul);
        let error = haul_work(&haul).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(&|h| h.load = 0.0.newtons(), "load is 0 N");
    says(&|h| h.lift = f64::NAN.meters(), "lift is NaN");
    says(&|h| h.back_slip = 3.0.meters(), "throw is 3 m; it must be above what a stroke loses");
    says(&|h| h.people = 0, "people is 0");
    says(&|h| h.hand_speed = (-1.0).meters_per_second(), "hand_speed is -1");
    says(&|h| h.throw = 1e-9.meters(), "strokes do");
    says(&|h| h.friction = None, "friction is missing; it must be given");
    says(&|h| h.system = own("mine", System::new()), "friction is given; it must be left out");
    let mut nothing = haul(Ordinary::NineToOne, 0.8);
    nothing.throw = (-1.0).meters();
    assert!(compare_hauls(&nothing, &all()).is_err());
}

proptest! {
    #[test]
    fn any_haul_gives_an_answer_or_an_error(
        load in prop_oneof![1.0..3e3_f64, any::<f64>()], lift in prop_oneof![0.1..99.0_f64, any::<f64>()],
        throw in prop_oneof![0.1..9.0_f64, any::<f64>()], slip in prop_oneof![0.0..0.5_f64, any::<f64>()],
        ea in prop_oneof![1e3..1e6_f64, any::<f64>()], line in prop_oneof![0.0..99.0_f64, any::<f64>()],
        efficiency in prop_oneof![0.3..1.0_f64, any::<f64>()], pull in prop_oneof![50.0..400.0_f64, any::<f64>()],
        speed in prop_oneof![0.1..1.0_f64, any::<f64>()], kind in 0..7_usize,
    ) {
        let haul = Haul {
            load: load.newtons(),
            lift: lift.meters(),
            throw: throw.meters(),
            back_slip: slip.meters(),
            line_length: line.meters(),
            line_rigidity: Some(ea.newtons()),
            system_rigidity: Some(ea.newtons()),
            pull_each: pull.newtons(),
            hand_speed: speed.meters_per_second(),
            ..haul(ALL[kind], efficiency)
        };
        if let Ok(work) = haul_work(&haul) {
            prop_assert!(work.work.si().is_finite() && work.time.si() > 0.0);
            let books = work.raised.si() + work.stored.si() + work.lost_at_resets.si()
                + work.lost_at_sheaves.si();
            prop_assert!((books / work.work.si() - 1.0).abs() < 1e-9);
            prop_assert!(work.lost_at_sheaves.si() > -1e-9 * work.work.si());
        }
    }
}
