use proptest::prelude::*;

use super::*;
use crate::line::LineError;
use crate::quantity::*;

#[test]
fn a_conductors_sag_tension_table() {
    // Thrash and Douglass, "Sag and Tension of Conductor", Table 14.5: span ft, weight lbf/ft, tension lbf,
    // sag ft. That the tension listed is the mean of the horizontal and the end tension is inferred: only
    // so do all rows agree to half a unit of the last digit.
    let rows = [
        (700.0, 2.509, 11318.0, 13.61),
        (700.0, 2.094, 9224.0, 13.93),
        (700.0, 1.094, 8161.0, 8.22),
        (700.0, 1.094, 7301.0, 9.19),
        (700.0, 1.094, 6242.0, 10.75),
        (700.0, 1.094, 5429.0, 12.36),
        (700.0, 1.094, 4809.0, 13.96),
        (700.0, 1.094, 4330.0, 15.52),
        (700.0, 1.094, 3960.0, 16.97),
        (700.0, 1.094, 3728.0, 18.04),
        (1000.0, 2.509, 12116.0, 25.98),
        (1000.0, 2.094, 9990.0, 26.30),
        (1000.0, 1.094, 7318.0, 18.72),
    ];
    let foot = 0.3048;
    let cases = rows.map(|(span, weight, tension, _)| SagCase {
        span: span.feet(),
        weight: LineLoad::from_si(weight * 1.0.pounds_force().si() / foot),
        tension: tension.pounds_force(),
    });
    let mean = sag_table(&cases, ListedTension::Mean).unwrap();
    for (row, published) in mean.iter().zip(rows) {
        let sag_ft = row.sag.in_feet();
        assert!((sag_ft - published.3).abs() < 0.005, "{sag_ft} {published:?}");
    }
    // The other two readings of the column do not fit it.
    for listed in [ListedTension::Horizontal, ListedTension::End] {
        let other = sag_table(&cases, listed).unwrap();
        assert!(other.iter().zip(rows).any(|(r, p)| (r.sag.in_feet() - p.3).abs() > 0.02));
    }
}

#[test]
fn textbook_lines_by_their_tension() {
    // Overhead conductor worked example (from memory): 600 ft, 1.094 lbf/ft, H 6300 lbf: 7.82 ft, 600.27 ft.
    let case = SagCase {
        span: 600.0.feet(),
        weight: LineLoad::from_si(1.094 * 1.0.pounds_force().si() / 0.3048),
        tension: 6300.0.pounds_force(),
    };
    let row = sag_table(&[case], ListedTension::Horizontal).unwrap()[0];
    assert!((row.sag.in_feet() - 7.82).abs() < 0.005);
    assert!((row.length.in_feet() - 600.27).abs() < 0.005);
    // Hibbeler, Statics, example 7.13 (from memory): 5 N/m, 20 m: H 45.9 N, T 75.9 N, 52.8°, 24.2 m, sag 6 m.
    // The slack side of the least end tension: by H.
    let case = SagCase {
        span: 20.0.meters(),
        weight: 5.0.newtons_per_meter(),
        tension: 45.9447.newtons(),
    };
    let row = sag_table(&[case], ListedTension::Horizontal).unwrap()[0];
    assert!((row.sag.in_meters() - 6.0).abs() < 1e-4);
    assert!((row.tension_end.in_newtons() - 75.9).abs() < 0.05);
    assert!((row.angle_end.in_degrees() - 52.8).abs() < 0.05);
    assert!((row.length.in_meters() - 24.2).abs() < 0.05);
}

#[test]
fn the_least_end_tension_of_a_span() {
    // Routh; Irvine (1981), chapter 1 (from memory): sag / span 0.3377, T / (w l) 0.7544, 56.47°, L / l 1.2577.
    let case = |tension: f64| SagCase {
        span: 1.0.meters(),
        weight: 1.0.newtons_per_meter(),
        tension: tension.newtons(),
    };
    // By its H, since the end tension is flat about its least.
    let row = sag_table(&[case(0.5 / 1.199_678_64)], ListedTension::Horizontal).unwrap()[0];
    assert!((row.tension_end.si() - 0.7544).abs() < 5e-5 && (row.sag.si() - 0.3377).abs() < 5e-5);
    assert!((row.length.si() - 1.2577).abs() < 5e-5);
    assert!((row.angle_end.in_degrees() - 56.47).abs() < 0.005);
    let error = sag_table(&[case(0.7545), case(0.7544)], ListedTension::End).unwrap_err();
    assert!(error.to_string().starts_with("at index 1: tension is 0.7544 N"), "{error}");
}

#[test]
fn a_load_in_the_middle_by_the_sag() {
    // Tension over load of rope-rescue and highline texts, T = W L / (4 d) and its exact form, from memory.
    let published = [(1.0, 25.0, 0.05), (2.0, 12.5, 0.05), (5.0, 5.02, 0.005), (10.0, 2.55, 0.005)];
    let sags: Vec<Ratio> = published.iter().map(|row| row.0.percent()).collect();
    let rows = mid_load_table(&sags, 1.0.kilonewtons()).unwrap();
    for (row, (_, ratio, half_digit)) in rows.iter().zip(published) {
        assert!((row.tension_over_load.si() - ratio).abs() < half_digit);
        // 10 % of sag is a horizontal 2.5 times the load.
        assert!((row.h_over_load.si() * row.sag_over_span.si() - 0.25).abs() < 1e-15);
    }
}

#[test]
fn leg_angles_of_rope_rescue_texts() {
    // Leg tension over load by the included angle; values from memory.
    let published = [
        (0.0, 0.500),
        (30.0, 0.518),
        (45.0, 0.541),
        (60.0, 0.577),
        (90.0, 0.707),
        (120.0, 1.000),
        (135.0, 1.307),
        (150.0, 1.932),
        (160.0, 2.879),
        (170.0, 5.737),
    ];
    let angles: Vec<Angle> = published.iter().map(|row| row.0.degrees()).collect();
    for (row, (angle, factor)) in angle_table(&angles).unwrap().iter().zip(published) {
        assert!((row.tension_over_load.si() - factor).abs() < 0.0005, "{angle}");
    }
}

#[test]
fn a_sling_angle_table() {
    // Web sling instruction after ASME B30.9, with OSHA 1910.184: angle from the level, tension factor,
    // reduction factor. The tension factors at 65°, 40° and 35° are one unit off in print.
    let published = [
        (90.0, 1.000, 1.000),
        (85.0, 1.004, 0.996),
        (80.0, 1.015, 0.985),
        (75.0, 1.035, 0.966),
        (70.0, 1.064, 0.940),
        (65.0, 1.104, 0.906),
        (60.0, 1.155, 0.866),
        (55.0, 1.221, 0.819),
        (50.0, 1.305, 0.766),
        (45.0, 1.414, 0.707),
        (40.0, 1.555, 0.643),
        (35.0, 1.742, 0.574),
        (30.0, 2.000, 0.500),
    ];
    let angles: Vec<Angle> = published.iter().map(|row| (180.0 - 2.0 * row.0).degrees()).collect();
    for (row, (angle, tension, reduction)) in angle_table(&angles).unwrap().iter().zip(published) {
        assert!((row.from_level.in_degrees() - angle).abs() < 1e-9);
        let half_digit = if [65.0, 40.0, 35.0].contains(&angle) { 0.0015 } else { 0.000_501 };
        assert!((row.tension_factor.si() - tension).abs() < half_digit, "{angle}");
        assert!((row.reduction_factor.si() - reduction).abs() < 0.000_501, "{angle}");
    }
}

#[test]
fn block_load_factors() {
    // Angle factor multipliers for loads on blocks, a rigging catalogue: four are one unit off in print.
    let published = [
        (0.0, 2.00),
        (10.0, 1.99),
        (20.0, 1.97),
        (30.0, 1.93),
        (40.0, 1.87),
        (45.0, 1.84),
        (50.0, 1.81),
        (60.0, 1.73),
        (70.0, 1.64),
        (80.0, 1.53),
        (90.0, 1.41),
        (100.0, 1.29),
        (110.0, 1.15),
        (120.0, 1.00),
        (130.0, 0.84),
        (135.0, 0.76),
        (140.0, 0.68),
        (150.0, 0.52),
        (160.0, 0.35),
        (170.0, 0.17),
    ];
    let angles: Vec<Angle> = published.iter().map(|row| row.0.degrees()).collect();
    for (row, (angle, factor)) in angle_table(&angles).unwrap().iter().zip(published) {
        let off = [40.0, 45.0, 130.0, 135.0].contains(&angle);
        let half_digit = if off { 0.01 } else { 0.005 };
        assert!((row.block_factor.si() - factor).abs() < half_digit, "{angle}");
    }
}

#[test]
fn tables_as_text() {
    let rows = LineTable::Angle(angle_table(&[90.0.degrees(), 120.0.degrees()]).unwrap());
    let text = table_text(&rows, &TableStyle::default()).unwrap();
    assert_eq!(
        text,
        "| included (deg) | from level (deg) | tension / load | tension factor | reduction factor | \
         block factor |\n|--:|--:|--:|--:|--:|--:|\n\
         | 90.0 | 45.0 | 0.707 | 1.414 | 0.707 | 1.414 |\n\
         | 120.0 | 30.0 | 1.000 | 2.000 | 0.500 | 1.000 |\n"
    );
    let case =
        SagCase { span: 20.0.meters(), weight: 5.0.newtons_per_meter(), tension: 50.0.newtons() };
    let rows = LineTable::Sag(sag_table(&[case], ListedTension::Horizontal).unwrap());
    let style = TableStyle {
        format: TableFormat::Csv,
        force_unit: "N".to_owned(),
        decimals: 1,
        ..TableStyle::default()
    };
    assert_eq!(
        table_text(&rows, &style).unwrap(),
        "span (m),weight (N/m),tension (N),sag (m),horizontal (N),end (N),length (m),end slope (deg)\n\
         20.0,5.0,50.0,5.4,50.0,77.2,23.5,49.6\n"
    );
    let wrong = TableStyle { length_unit: "kN".to_owned(), ..style.clone() };
    assert!(
        table_text(&rows, &wrong).unwrap_err().to_string().starts_with("length_unit is \"kN\"")
    );
    let long = TableStyle { decimals: 13, ..style };
    assert!(matches!(table_text(&rows, &long), Err(LineError::Invalid(_))));
}

proptest! {
    #[test]
    fn any_row_is_finite_or_an_error(
        a in any::<f64>(), b in any::<f64>(), c in any::<f64>(), e in -8.0..8.0_f64,
    ) {
        for (span, weight, tension) in [(a, b, c), (10.0, 2.0, 10.0_f64.powf(e))] {
            for listed in [ListedTension::Horizontal, ListedTension::End, ListedTension::Mean] {
                let case = SagCase {
                    span: span.meters(),
                    weight: weight.newtons_per_meter(),
                    tension: tension.newtons(),
                };
                if let Ok(rows) = sag_table(&[case], listed) {
                    let row = rows[0];
                    prop_assert!(row.sag.si().is_finite() && row.tension_end.si().is_finite());
                    prop_assert!(row.tension_end >= row.h && row.length.si() >= span * (1.0 - 1e-12));
                }
            }
        }
        if let Ok(rows) = mid_load_table(&[a.ratio()], b.newtons()) {
            prop_assert!(rows[0].tension.si().is_finite());
        }
        if let Ok(rows) = angle_table(&[a.radians()]) {
            prop_assert!(rows[0].tension_factor.si().is_finite());
        }
    }
}
