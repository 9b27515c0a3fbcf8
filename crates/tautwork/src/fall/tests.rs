use proptest::prelude::*;

use super::*;
use crate::quantity::*;

proptest! {
    #[test]
    fn inverse_undoes_impact_force(m in 1.0..500.0_f64, f in 0.01..2.0_f64, ea in 1e3..1e7_f64) {
        let (m, f, ea) = (m.kilograms(), f.ratio(), ea.newtons());
        let force = impact_force(m, f, ea).unwrap();
        let back = implied_axial_rigidity(m, f, force).unwrap();
        prop_assert!((back.si() / ea.si() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(m in any::<f64>(), f in any::<f64>(), ea in any::<f64>()) {
        if let Ok(force) = impact_force(m.kilograms(), f.ratio(), ea.newtons()) {
            prop_assert!(force.si().is_finite());
        }
        if let Ok(ea) = implied_axial_rigidity(m.kilograms(), f.ratio(), ea.newtons()) {
            prop_assert!(ea.si().is_finite());
        }
    }
}
