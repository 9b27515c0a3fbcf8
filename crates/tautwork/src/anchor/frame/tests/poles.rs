//! What poles can take.

use std::f64::consts::PI;

use super::super::pole::reduction;
use super::*;

fn own(e_gpa: f64, f_mpa: f64, imperfection: f64, plateau: f64) -> PoleMaterial {
    PoleMaterial::Own(PoleFigures {
        young_modulus_low: e_gpa.gigapascals(),
        young_modulus_high: e_gpa.gigapascals(),
        strength_low: f_mpa.megapascals(),
        strength_high: f_mpa.megapascals(),
        imperfection: imperfection.ratio(),
        plateau: plateau.ratio(),
        source: "test".to_owned(),
    })
}

fn pole(section: PoleSection, material: PoleMaterial) -> Pole {
    Pole { section, material, effective_length_factor: None }
}

fn round(diameter_m: f64) -> PoleSection {
    PoleSection::Round { diameter: diameter_m.meters() }
}

/// Reduction by relative slenderness, curves a, b and c of EN 1993-1-1 as tabulated in handbooks of steel
/// (from memory).
#[test]
fn column_curves_of_steel() {
    for (slenderness, a, b, c) in [
        (0.2, 1.0, 1.0, 1.0),
        (0.5, 0.9243, 0.8842, 0.8430),
        (1.0, 0.6656, 0.5970, 0.5399),
        (1.5, 0.3724, 0.3422, 0.3145),
        (2.0, 0.2229, 0.2095, 0.1962),
    ] {
        for (imperfection, table) in [(0.21, a), (0.34, b), (0.49, c)] {
            let found = reduction(slenderness, imperfection, 0.2);
            assert!((found - table).abs() < 6e-5, "{slenderness} {imperfection}: {found}");
        }
    }
}

/// Reduction of class C24 softwood (E 7.4 GPa, strength 21 MPa) at a slenderness of 100, EN 1995-1-1, as
/// tabulated in handbooks of timber (from memory): 0.305.
#[test]
fn column_curve_of_timber() {
    let found = buckling(&pole(round(0.2), own(7.4, 21.0, 0.2, 0.3)), 5.0.meters()).unwrap();
    assert!(near(found.slenderness.si(), 100.0, 1e-12));
    assert!((found.capacity_low.si() / found.crushing_low.si() - 0.305).abs() < 5e-4);
}

/// Hibbeler, *Mechanics of Materials*, column example (from memory): a pinned steel tube of 24 ft, radii 3
/// and 2.75 in, E = 29 000 ksi, buckles at 64.5 kip, 14.3 ksi.
#[test]
fn a_textbook_tube() {
    let section = PoleSection::Tube { outer: 6.0.inches(), wall: 0.25.inches() };
    let found = buckling(&pole(section, own(199.947_962, 248.0, 0.0, 0.0)), 24.0.feet()).unwrap();
    let kip = 1000.0.pounds_force().si();
    assert!((found.euler_low.si() / kip - 64.5).abs() < 0.05);
    let area_m2 = found.crushing_low.si() / 248e6;
    assert!((found.euler_low.si() / area_m2 / 1.0.kips_per_square_inch().si() - 14.3).abs() < 0.05);
}

/// Euler's four cases by the factor of the effective length.
#[test]
fn ends_change_the_load_by_the_square_of_the_effective_length() {
    let mut p = pole(round(0.1), own(10.0, 20.0, 0.0, 0.0));
    let pinned = buckling(&p, 4.0.meters()).unwrap().euler_low.si();
    assert!(near(pinned, PI * PI * 10e9 * PI * 1e-4 / 64.0 / 16.0, 1e-14));
    for (factor, times) in [(2.0, 0.25), (0.5, 4.0), (1.0, 1.0)] {
        p.effective_length_factor = Some(factor.ratio());
        assert!(near(buckling(&p, 4.0.meters()).unwrap().euler_low.si(), times * pinned, 1e-14));
    }
    p.effective_length_factor = Some(0.4.ratio());
    assert!(matches!(buckling(&p, 4.0.meters()), Err(AnchorError::Invalid(_))));
}

/// E I y'' + N y = 0 by Runge and Kutta from the thin end: at the load of Eq. (F13) the far end is back on
/// the axis for the first time.
#[test]
fn cones_buckle_where_the_deflection_closes() {
    for (thick, thin) in [(0.12, 0.12), (0.12, 0.10), (0.15, 0.06)] {
        let section = PoleSection::Cone { thick: thick.meters(), thin: thin.meters() };
        let found = buckling(&pole(section, own(10.0, 20.0, 0.2, 0.3)), 4.0.meters()).unwrap();
        let bend = |x: f64, y: f64| {
            let d: f64 = thin + (thick - thin) * x / 4.0;
            -found.euler_low.si() * y / (10e9 * PI * d.powi(4) / 64.0)
        };
        let (mut y, mut v) = (0.0, 1.0);
        let h = 4.0 / 2000.0;
        for i in 0..2000 {
            let x = f64::from(i) * h;
            assert!(y >= 0.0);
            let (k1, l1) = (v, bend(x, y));
            let (k2, l2) = (v + 0.5 * h * l1, bend(x + 0.5 * h, y + 0.5 * h * k1));
            let (k3, l3) = (v + 0.5 * h * l2, bend(x + 0.5 * h, y + 0.5 * h * k2));
            let (k4, l4) = (v + h * l3, bend(x + h, y + h * k3));
            y += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
            v += h / 6.0 * (l1 + 2.0 * l2 + 2.0 * l3 + l4);
        }
        assert!(y.abs() < 1e-8, "{thick} {thin}: {y}");
    }
}

#[test]
fn a_cone_without_pinned_ends_counts_as_its_thin_end() {
    let cone = PoleSection::Cone { thick: 0.2.meters(), thin: 0.1.meters() };
    let mut p = pole(cone, PoleMaterial::Softwood);
    assert!(!buckling(&p, 6.0.meters()).unwrap().notes.contains(&BucklingNote::ThinEnd));
    p.effective_length_factor = Some(0.7.ratio());
    let found = buckling(&p, 6.0.meters()).unwrap();
    assert!(found.notes.contains(&BucklingNote::ThinEnd));
    p.section = round(0.1);
    assert_eq!(buckling(&p, 6.0.meters()).unwrap().capacity_low, found.capacity_low);
}

#[test]
fn a_tube_of_half_its_width_is_solid_and_thin_walls_keep_their_digits() {
    let tube = |wall: f64| PoleSection::Tube { outer: 0.08.meters(), wall: wall.meters() };
    let load = |section| {
        let found = buckling(&pole(section, PoleMaterial::Steel), 3.0.meters()).unwrap();
        (found.euler_low.si(), found.crushing_low.si())
    };
    assert!(near(load(tube(0.04)).0, load(round(0.08)).0, 1e-14));
    // A thin ring: I = π r³ t, A = 2 π r t.
    let (euler, crushing) = load(tube(1e-12));
    assert!(near(euler, PI * PI * 210e9 * PI * 0.04_f64.powi(3) * 1e-12 / 9.0, 1e-10));
    assert!(near(crushing, 235e6 * 2.0 * PI * 0.04 * 1e-12, 1e-10));
}

#[test]
fn a_leg_has_the_factor_of_its_pole_and_a_guy_that_of_its_strength() {
    let mut f = frame([0.0, 0.0, 3.0], &[[0.0; 3]], &[[-4.0, 0.0, 0.0]], [800.0, 0.0, 0.0]);
    f.legs[0].pole = Some(pole(round(0.09), PoleMaterial::Softwood));
    f.guys[0].strength = Some(10.0.kilonewtons());
    let found = frame_forces(&f).unwrap();
    // 3-4-5: the guy 1 kN, the leg 600 N.
    let guy = found.guys[0].factor.unwrap();
    assert!(near(guy.low.si(), 10.0, 1e-12) && guy.low == guy.high);
    let leg = found.legs[0].factor.unwrap();
    let alone = buckling(f.legs[0].pole.as_ref().unwrap(), 3.0.meters()).unwrap();
    assert!(near(leg.low.si(), alone.capacity_low.si() / 600.0, 1e-12));
    assert!(near(leg.high.si(), alone.capacity_high.si() / 600.0, 1e-12));
}

proptest! {
    /// A real column carries less than either limit, less the longer it is, more the thicker it is.
    #[test]
    fn capacity_is_below_euler_and_crushing(
        d in 0.02..0.4_f64, length in 0.5..15.0_f64, more in 1.01..2.0_f64, which in 0..3,
    ) {
        let material = [PoleMaterial::Softwood, PoleMaterial::Aluminium, PoleMaterial::Steel]
            [usize::try_from(which).unwrap()].clone();
        let at = |d: f64, l: f64| buckling(&pole(round(d), material.clone()), l.meters()).unwrap();
        let found = at(d, length);
        prop_assert!(found.capacity_low <= found.euler_low);
        prop_assert!(found.capacity_low <= found.crushing_low);
        prop_assert!(found.capacity_low <= found.capacity_high);
        prop_assert!(at(d, length * more).capacity_low <= found.capacity_low);
        prop_assert!(at(d * more, length).capacity_low > found.capacity_low);
        let stocky = found.notes.contains(&BucklingNote::Stocky);
        prop_assert_eq!(stocky, found.euler_high > found.crushing_low);
        // Long columns follow Euler, short ones crush.
        let thin = at(d, 2000.0 * d);
        prop_assert!(thin.capacity_low.si() > 0.95 * thin.euler_low.si());
        prop_assert!(at(d, 0.5 * d).capacity_low == at(d, 0.5 * d).crushing_low);
    }
}
