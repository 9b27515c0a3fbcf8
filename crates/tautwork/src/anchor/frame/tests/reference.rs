//! 200 seeded frames against SciPy; `tests/reference/frame.py` made the figures.

use super::*;

#[derive(serde::Deserialize)]
struct Case {
    head_m: [f64; 3],
    legs_m: Vec<[f64; 3]>,
    guys_m: Vec<[f64; 3]>,
    leg_ea_n: f64,
    guy_ea_n: f64,
    leg_mass_kg: f64,
    pretension_n: Vec<f64>,
    force_n: [f64; 3],
    rope_towards_m: [f64; 3],
    rope_tension_n: f64,
    stands: bool,
    margin_rad: Option<f64>,
    force_found_n: Option<Vec<f64>>,
    u_m: Option<[f64; 3]>,
    hobble: Option<[f64; 2]>,
    /// Empty for a frame that falls.
    peaks_n: Option<Vec<f64>>,
}

impl Case {
    fn frame(&self) -> Frame {
        let mut f = frame(self.head_m, &self.legs_m, &self.guys_m, self.force_n);
        for leg in &mut f.legs {
            leg.axial_rigidity = self.leg_ea_n.newtons();
            leg.mass = Some(self.leg_mass_kg.kilograms());
        }
        for (guy, &n) in f.guys.iter_mut().zip(&self.pretension_n) {
            guy.axial_rigidity = self.guy_ea_n.newtons();
            guy.pretension = Some(n.newtons());
        }
        f.ropes = vec![rope("load", self.rope_towards_m, self.rope_tension_n)];
        f
    }
}

fn cases() -> Vec<Case> {
    let text = include_str!("../../../../../../tests/reference/frame.json");
    let cases: Vec<Case> = serde_json::from_str(text).unwrap();
    assert_eq!(cases.len(), 200);
    cases
}

/// SciPy: `linprog` says whether, `nnls` and the conditions of Karush, Kuhn and Tucker with what forces.
#[test]
fn forces_agree_with_scipy() {
    for (i, case) in cases().iter().enumerate() {
        let found = frame_forces(&case.frame());
        if !case.stands {
            assert_eq!(found, Err(AnchorError::CannotStand), "case {i}");
            continue;
        }
        let found = found.unwrap();
        // 6 when written: more means that the solver has become slower.
        assert!(found.iterations <= 8, "case {i} took {}", found.iterations);
        let reference = case.force_found_n.as_ref().unwrap();
        let size = reference.iter().fold(0.0, |m: f64, &f| m.max(f));
        for (j, (f, r)) in all(&found).iter().zip(reference).enumerate() {
            assert!((f - r).abs() < 1e-9 * size, "case {i} member {j}: {f} {r}");
            assert_eq!(*f == 0.0, *r == 0.0, "case {i} member {j}");
        }
        let u = Vector3::from(case.u_m.unwrap());
        assert!((si(found.displacement) - u).norm() < 1e-9 * u.norm(), "case {i}");
    }
}

/// SciPy: sides of the cone of the members by `ConvexHull`, then Eq. (F11).
#[test]
fn windows_agree_with_scipy() {
    let mut seen = 0;
    for (i, case) in cases().iter().enumerate() {
        let found = frame_window(&case.frame(), "load").unwrap();
        assert_eq!(found.stands, case.stands, "case {i}");
        if let Some(margin) = case.margin_rad {
            assert!((found.margin.unwrap().si() - margin).abs() < 1e-7, "case {i}");
            assert_eq!(margin >= 0.0, case.stands, "case {i}");
            seen += 1;
        }
    }
    assert!(seen > 50);
}

/// SciPy: `minimize_scalar` over the tension of a loop round all feet.
#[test]
fn hobbles_agree_with_scipy() {
    let mut seen = 0;
    for (i, case) in cases().iter().enumerate() {
        let Some([without, least]) = case.hobble else { continue };
        let mut f = case.frame();
        let mut round: Vec<_> = f.legs.iter().map(|l| l.name.clone()).collect();
        round.push(round[0].clone());
        f.hobble = Some(Hobble { round, friction: None });
        let found = frame_forces(&f).unwrap().hobble.unwrap();
        assert!((found.friction_without.si() - without).abs() < 1e-9 * without, "case {i}");
        // A bounded search finds a minimum no better than this.
        assert!((found.friction_least.si() - least).abs() < 1e-7, "case {i}");
        seen += 1;
    }
    assert!(seen > 50);
}

/// SciPy: the forces without the first guy, and `brentq` for the turning point.
#[test]
fn losses_agree_with_scipy() {
    let mut seen = [0, 0];
    for (i, case) in cases().iter().enumerate() {
        let Some(peaks) = &case.peaks_n else { continue };
        match lose_guy(&case.frame(), "guy 0").unwrap().after {
            AfterLoss::Falls(_) => {
                assert!(peaks.is_empty(), "case {i}");
                seen[0] += 1;
            }
            AfterLoss::Stands(after) => {
                assert_eq!(after.peaks.len(), peaks.len(), "case {i}");
                let size = peaks.iter().fold(0.0, |m: f64, &f| m.max(f));
                for (found, reference) in after.peaks.iter().zip(peaks) {
                    assert!((found.force.si() - reference).abs() < 1e-8 * size, "case {i}");
                }
                seen[1] += 1;
            }
        }
    }
    assert!(seen[0] > 20 && seen[1] > 20, "{seen:?}");
}
