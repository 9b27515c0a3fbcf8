//! What a slack rope forgets in the time between falls.

use super::super::FallError;
use super::motion::{BUDGET, TOLERANCE};
use super::solid::{Damper, Solid};
use crate::material::Law;
use crate::ode::{Control, DormandPrince, Halt, Rates};

/// State of the damper of a slack rope after a time, Eqs. (D3) and (D5).
pub(super) fn relaxed(solid: &Solid<'_>, damper: f64, seconds: f64) -> Result<f64, FallError> {
    match solid.damper {
        Damper::None => Ok(0.0),
        Damper::Beside { retardation_s } => {
            let t_n = solid.law.tension(damper) * (-seconds / retardation_s).exp();
            Ok(solid.law.strain(t_n))
        }
        Damper::Arm { arm_n, relaxation_s } => {
            if let Law::Linear { ea_n } = solid.law {
                let long = solid.scale * ea_n;
                return Ok(damper * (-seconds / relaxation_s * (long / (long + arm_n))).exp());
            }
            curved(solid, damper, seconds, relaxation_s)
        }
    }
}

fn curved(solid: &Solid<'_>, damper: f64, seconds: f64, unit_s: f64) -> Result<f64, FallError> {
    struct Slack<'a, 'b>(&'a Solid<'b>);
    impl Rates for Slack<'_, '_> {
        fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
            dy[0] = self.0.rates(-1.0, 0.0, y[0], false).0;
        }
    }
    let control = Control {
        rtol: TOLERANCE,
        atol: vec![TOLERANCE * 1e-3],
        longest_s: unit_s,
        budget: BUDGET,
    };
    let mut slack = Slack(solid);
    let mut ode = DormandPrince::new(&mut slack, vec![damper], control);
    while ode.t_s < seconds * (1.0 - 1e-14) && ode.y[0] > 1e-9 * damper {
        let left_s = seconds - ode.t_s;
        ode.advance(&mut slack, left_s).map_err(|halt| FallError::Unfinished {
            reached_s: ode.t_s,
            wanted_s: seconds,
            steps: ode.attempts,
            stalled: halt == Halt::Stalled,
        })?;
        ode.commit();
    }
    Ok(ode.y[0])
}
