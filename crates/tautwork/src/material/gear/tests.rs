use std::collections::BTreeSet;

use proptest::prelude::*;

use super::*;
use crate::quantity::*;

const KINDS: [GearKind; 19] = [
    GearKind::AccessoryCord,
    GearKind::Tape,
    GearKind::SewnSling,
    GearKind::DynamicRope,
    GearKind::LowStretchRope,
    GearKind::Connector,
    GearKind::Harness,
    GearKind::RopeClamp,
    GearKind::RockAnchor,
    GearKind::IceScrew,
    GearKind::Piton,
    GearKind::FrictionAnchor,
    GearKind::Chock,
    GearKind::Pulley,
    GearKind::Lanyard,
    GearKind::AnchorDevice,
    GearKind::EnergyAbsorber,
    GearKind::WireRopeSling,
    GearKind::TextileSling,
];

fn rating(kind: GearKind, kn: f64) -> GearRating {
    GearRating { kind, strength: kn.kilonewtons(), limit: None, diameter: None }
}

fn rules(rating: &GearRating) -> Vec<RatingRule> {
    rating_check(rating).unwrap().findings.iter().map(|f| f.rule).collect()
}

fn limit(key: &str) -> StandardLimit {
    gear_limits().into_iter().find(|l| l.key == key).unwrap()
}

/// EN 564: 0.2 d² kN, the printed table 3.2, 5.0, 7.2, 9.8, 12.8 kN for 4 to 8 mm.
#[test]
fn accessory_cord_by_its_formula() {
    for mm in [4.0, 5.0, 6.0, 7.0, 8.0] {
        let row = limit(&format!("en564_{mm}mm"));
        let mut cord = rating(GearKind::AccessoryCord, 20.0);
        cord.diameter = Some(mm.millimeters());
        let minimum = rating_check(&cord).unwrap().minimum_for_diameter.unwrap();
        assert!((minimum.si() - row.force.unwrap().si()).abs() < 1e-9, "{mm}");
    }
    let mut thin = rating(GearKind::AccessoryCord, 9.0);
    assert!(rules(&thin).is_empty());
    thin.diameter = Some(7.0.millimeters());
    assert_eq!(rules(&thin)[0], RatingRule::BelowMinimum);
}

/// EN 12275:2013 as printed in a test house's page: closed, open, minor in kN.
#[test]
fn connectors_as_printed() {
    for (class, closed, open, minor) in [
        ("b", 20.0, 7.0, Some(7.0)),
        ("h", 20.0, 6.0, Some(7.0)),
        ("k", 25.0, 8.0, Some(7.0)),
        ("x", 18.0, 5.0, Some(7.0)),
    ] {
        let kn = |part: &str| limit(&format!("en12275_{class}_{part}")).force.unwrap().si() / 1e3;
        assert_eq!((kn("closed"), kn("open"), Some(kn("minor"))), (closed, open, minor));
        assert_eq!(limit(&format!("en12275_{class}_closed")).certainty, Certainty::Seen);
    }
    assert!(gear_limits().iter().all(|l| l.key != "en12275_q_open" && l.key != "en12275_t_minor"));
}

#[test]
fn rows_have_one_limit_and_one_key_each() {
    let limits = gear_limits();
    let keys: BTreeSet<_> = limits.iter().map(|l| l.key).collect();
    assert_eq!(keys.len(), limits.len());
    for l in &limits {
        let given = [l.force.is_some(), l.ratio.is_some(), l.length.is_some(), l.count.is_some()];
        assert_eq!(given.iter().filter(|g| **g).count(), 1, "{}", l.key);
    }
    // Every kind is in the table.
    assert!(KINDS.iter().all(|kind| limits.iter().any(|l| l.kind == *kind)));
    // Memory is said to be memory.
    assert_eq!(limit("en568").certainty, Certainty::MemoryLow);
    assert_eq!(limit("en795_textile").certainty, Certainty::Seen);
    assert_eq!(limit("nfpa_rope_g").certainty, Certainty::PartlySeen);
}

#[test]
fn a_usual_rating_has_no_findings() {
    for (kind, kn) in [
        (GearKind::Connector, 24.0),
        (GearKind::SewnSling, 22.0),
        (GearKind::LowStretchRope, 30.0),
        (GearKind::RockAnchor, 25.0),
        (GearKind::Pulley, 32.0),
    ] {
        assert!(rules(&rating(kind, kn)).is_empty(), "{kind:?}");
    }
}

#[test]
fn limits_reached_and_not() {
    let check = rating_check(&rating(GearKind::Connector, 24.0)).unwrap();
    let has = |list: &[StandardLimit], key: &str| list.iter().any(|l| l.key == key);
    assert!(has(&check.reached, "en12275_b_closed") && has(&check.not_reached, "en12275_k_closed"));
    // At the limit is reached.
    let at = rating_check(&rating(GearKind::SewnSling, 22.0)).unwrap();
    assert!(has(&at.reached, "en566"));
    let mut gate = rating(GearKind::Connector, 7.0);
    gate.limit = Some("en12275_k_open".to_owned());
    let check = rating_check(&gate).unwrap();
    assert_eq!((check.reached.len(), check.not_reached.len()), (0, 1));
}

/// Every slip of a plausible rating between kN, kgf and lbf is found, with the value that was meant.
#[test]
fn slips_of_units_are_found() {
    for (written, meant) in [
        (22.0.kilograms_force(), 22.0.kilonewtons()),
        (22.0.newtons(), 22.0.kilonewtons()),
        (5000.0.kilonewtons(), 5000.0.pounds_force()),
        (2300.0.kilonewtons(), 2300.0.kilograms_force()),
        (5000.0.newtons(), 5000.0.pounds_force()),
    ] {
        let mut sling = rating(GearKind::SewnSling, 0.0);
        sling.strength = written;
        let check = rating_check(&sling).unwrap();
        let found = check.findings.iter().any(|f| {
            f.rule == RatingRule::UnitSlip
                && f.would_be.is_some_and(|w| (w.si() / meant.si() - 1.0).abs() < 1e-12)
        });
        assert!(found, "{written:?} {check:?}");
    }
}

#[test]
fn a_working_load_limit_is_told_from_a_strength() {
    let pulley = rating(GearKind::Pulley, 6.0);
    assert!(rules(&pulley).contains(&RatingRule::WorkingLoadLimit));
    assert!(!rules(&rating(GearKind::Pulley, 1.0)).contains(&RatingRule::WorkingLoadLimit));
    assert_eq!(rules(&rating(GearKind::EnergyAbsorber, 6.0)), [RatingRule::NoMinimum]);
}

#[test]
fn errors_say_what_is_allowed() {
    let mut gate = rating(GearKind::Tape, 7.0);
    gate.limit = Some("en12275_k_open".to_owned());
    assert_eq!(
        rating_check(&gate).unwrap_err().to_string(),
        "limit is en12275_k_open; it must be a strength of its kind: en565, en565_older"
    );
    gate.limit = None;
    gate.diameter = Some(6.0.millimeters());
    let error = rating_check(&gate).unwrap_err().to_string();
    assert!(error.ends_with("it must be left out, but for accessory cord"), "{error}");
}

proptest! {
    #[test]
    fn no_rating_panics_or_gives_a_bad_number(
        kn in prop_oneof![any::<f64>(), 1e-3..1e5_f64], kind in prop::sample::select(KINDS.to_vec()),
        mm in prop::option::of(prop_oneof![any::<f64>(), 1.0..20.0_f64]),
    ) {
        let mut case = rating(kind, kn);
        case.diameter = mm.map(Words::millimeters);
        if let Ok(check) = rating_check(&case) {
            let text = serde_json::to_string(&check).unwrap();
            prop_assert!(!text.contains("NaN") && !text.contains("inf") && !text.contains("null"));
            prop_assert!(check.findings.iter().all(|f| !f.because.contains("safe")));
        }
    }

    #[test]
    fn a_stronger_rating_reaches_no_fewer_limits(
        kn in 0.1..100.0_f64, more in 1.0..3.0_f64, kind in prop::sample::select(KINDS.to_vec()),
    ) {
        let reached = |kn: f64| rating_check(&rating(kind, kn)).unwrap().reached.len();
        prop_assert!(reached(more * kn) >= reached(kn));
    }
}
