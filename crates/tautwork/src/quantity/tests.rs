use proptest::prelude::*;
use serde::{Deserialize, Serialize};

use super::*;

fn message<Q: Quantity + std::fmt::Debug>(text: &str) -> String {
    parse::<Q>(text).unwrap_err().to_string()
}

#[test]
fn reads_the_forms_riggers_write() {
    for (text, newtons) in [
        ("22 kN", 22e3),
        ("22kN", 22e3),
        (" -0.5 kN ", -500.0),
        ("\u{2212}500 N", -500.0),
        ("1e3 N", 1000.0),
        (".5 daN", 5.0),
        ("100 kgf", 980.665),
        ("1 lbf", 4.448_221_615_260_5),
    ] {
        assert_eq!(parse::<Force>(text).unwrap().si(), newtons, "{text}");
    }
    assert_eq!(parse::<LinearDensity>("72 g / m").unwrap().in_grams_per_meter(), 72.0);
    assert_eq!(parse::<Angle>("180°").unwrap().si(), std::f64::consts::PI);
    assert_eq!(parse::<Ratio>("0.9").unwrap().si(), 0.9);
    assert_eq!(parse::<Ratio>("8.5 %").unwrap().si(), 0.085);
}

// NIST Special Publication 811 (2008), appendix B.8: values from memory, at its printed digits.
#[test]
fn conversions_match_nist_sp_811() {
    let close = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 5e-7, "{a} {b}");
    close(1.0.pounds_force().si(), 4.448_222);
    close(1.0.pounds_force_per_foot().si(), 14.593_90);
    close(1.0.pounds_per_foot().si(), 1.488_164);
    close(1.0.foot_pounds_force().si(), 1.355_818);
    close(1.0.miles_per_hour().si(), 0.447_04);
    close(1.0.kips().si(), 4448.222);
    close(1.0.pounds_per_cubic_foot().si(), 16.018_46);
}

#[test]
fn a_change_of_temperature_is_no_temperature() {
    assert_eq!(parse::<TemperatureDifference>("-15 K").unwrap().si(), -15.0);
    assert!((parse::<TemperatureDifference>("18 Δ°F").unwrap().in_kelvins() - 10.0).abs() < 1e-14);
    assert!(message::<TemperatureDifference>("20 °C").contains("use one of K, Δ°F"));
    // A steel of 12 parts in a million to the kelvin gives 6.67 to the Fahrenheit degree.
    let steel = parse::<ThermalExpansion>("12 ppm/K").unwrap();
    assert!((steel.in_per_fahrenheit_degree() - 6.667e-6).abs() < 1e-9);
    assert!((steel.si() - parse::<ThermalExpansion>("1.2e-5 1/K").unwrap().si()).abs() < 1e-20);
    assert!((steel.si() - parse::<ThermalExpansion>("0.0012 % / K").unwrap().si()).abs() < 1e-20);
    // The digit of "1/K" must not join the number.
    assert!(parse::<ThermalExpansion>("1.2e-51/K").is_err());
    assert!(parse::<Length>("1 1/2 m").is_err());
}

#[test]
fn wrong_text_says_what_would_be_right() {
    assert_eq!(message::<Force>("22"), "\"22\" has no unit; write a force such as \"22 kN\"");
    assert_eq!(
        message::<Force>("22 m"),
        "\"22 m\" is a length, not a force; write a force such as \"22 kN\""
    );
    assert!(message::<Force>("22 kn").contains("did you mean \"kN\"?"));
    assert!(message::<Force>("22 bananas").contains("use one of N, kN"));
    for text in ["NaN kN", "inf kN", "-inf kN", "1e999 N", "1e308 kN", "+infinity N"] {
        assert!(message::<Force>(text).contains("not a finite number"), "{text}");
    }
    for text in ["", " ", "kN", "1,5 kN", "1 500 N", "1.2.3 N", "--1 N", "- 1 N"] {
        assert!(message::<Force>(text).contains("does not start with a number"), "{text}");
    }
    assert!(message::<Force>("5 1").contains("does not start with a number"));
}

#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Doc {
    #[serde(with = "Text::<Force>")]
    force: Force,
    #[serde(with = "Texts::<Length>")]
    lengths: Vec<Length>,
    #[serde(with = "MaybeText::<Angle>", default)]
    angle: Option<Angle>,
}

#[test]
fn serde_writes_text_and_refuses_bare_numbers() {
    let doc =
        Doc { force: 22.0.kilonewtons(), lengths: vec![64.0.meters()], angle: Some(0.5.radians()) };
    let text = serde_json::to_string(&doc).unwrap();
    assert_eq!(text, r#"{"force":"22 kN","lengths":["64 m"],"angle":"0.5 rad"}"#);
    assert_eq!(serde_json::from_str::<Doc>(&text).unwrap(), doc);
    let pair = r#"{"force":{"value":22,"unit":"kN"},"lengths":[]}"#;
    assert_eq!(serde_json::from_str::<Doc>(pair).unwrap().force, doc.force);
    let bare = serde_json::from_str::<Doc>(r#"{"force":22,"lengths":[]}"#).unwrap_err();
    assert!(bare.to_string().contains("a force with its unit, such as \"22 kN\""), "{bare}");
}

#[test]
fn a_vector_is_three_texts() {
    #[derive(Debug, PartialEq, serde::Serialize, serde::Deserialize)]
    struct Place {
        #[serde(with = "Triple::<Length>")]
        at: [Length; 3],
    }
    let place = Place { at: [1.0.meters(), 0.0.meters(), (-2.5).meters()] };
    let text = serde_json::to_string(&place).unwrap();
    assert_eq!(text, r#"{"at":["1 m","0 m","-2.5 m"]}"#);
    assert_eq!(serde_json::from_str::<Place>(&text).unwrap(), place);
    assert!(serde_json::from_str::<Place>(r#"{"at":["1 m","0 m"]}"#).is_err());
}

#[test]
fn checks_name_parameter_value_and_range() {
    let bad = check::positive("rest_length", (-3.0).meters()).unwrap_err();
    assert_eq!(bad.to_string(), "rest_length is -3 m; it must be above zero");
    assert!(check::finite("tension", f64::NAN.newtons()).is_err());
    assert!(check::fraction("efficiency", 1.01.ratio()).is_err());
    assert!(check::between("x", 0.5.meters(), 0.0.meters(), 1.0.meters()).is_ok());
    assert_eq!(bad.within("line").parameter, "line.rest_length");
}

#[test]
fn no_two_kinds_share_a_spelling() {
    let mut seen = std::collections::BTreeMap::new();
    for kind in KINDS {
        for unit in kind.units {
            for name in std::iter::once(&unit.symbol).chain(unit.aliases) {
                assert_eq!(seen.insert(*name, kind.name), None, "{name}");
            }
        }
    }
}

proptest! {
    #[test]
    fn print_then_parse_gives_the_same_bits(si in any::<f64>().prop_filter("finite", |x| x.is_finite())) {
        let x = Force::from_si(si);
        prop_assert_eq!(parse::<Force>(&print(x)).unwrap().si().to_bits(), si.to_bits());
        let y = LinearDensity::from_si(si);
        prop_assert_eq!(parse::<LinearDensity>(&print(y)).unwrap().si().to_bits(), si.to_bits());
        let kelvins = TemperatureDifference::from_si(si);
        let again = parse::<TemperatureDifference>(&print(kelvins)).unwrap();
        prop_assert_eq!(again.si().to_bits(), si.to_bits());
        let expansion = ThermalExpansion::from_si(si);
        let again = parse::<ThermalExpansion>(&print(expansion)).unwrap();
        prop_assert_eq!(again.si().to_bits(), si.to_bits());
        let z = Ratio::from_si(si);
        prop_assert_eq!(parse::<Ratio>(&print(z)).unwrap().si().to_bits(), si.to_bits());
    }

    #[test]
    fn any_text_gives_an_answer_or_an_error(text in "\\PC{0,24}") {
        for kind in KINDS {
            if let Ok(value) = parse_as(&text, kind) {
                prop_assert!(value.is_finite());
            }
        }
    }
}
