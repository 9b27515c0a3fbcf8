//! A damped rope in SI: tension, loss and store in each state, taut or slack.

use crate::material::Law;

/// How the rope damps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Damper {
    /// Not at all.
    None,
    /// A spring with a damper in series beside the curve, Eq. (D2).
    Arm { arm_n: f64, relaxation_s: f64 },
    /// A damper beside the curve, Eq. (D4).
    Beside { retardation_s: f64 },
}

/// One rope.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solid<'a> {
    pub rest_m: f64,
    pub law: &'a Law,
    /// Factor on the tension of the law.
    pub scale: f64,
    pub damper: Damper,
}

impl Solid<'_> {
    fn spring_n(&self, e: f64) -> f64 {
        self.scale * self.law.tension(e)
    }

    /// dS/de.
    fn tangent_n(&self, e: f64) -> f64 {
        self.scale / self.law.strain_and_slope(self.law.tension(e)).1
    }

    /// Strain at which the rope goes taut; `s` is the state of the damper, Eq. (D3).
    pub fn rest_strain(&self, s: f64) -> f64 {
        match self.damper {
            Damper::None => 0.0,
            Damper::Beside { .. } => s,
            Damper::Arm { arm_n, .. } => self.arm_rest(arm_n, s.max(0.0)),
        }
    }

    /// Root of S(e) = A (s − e), sought in the tension: there the curve is explicit.
    fn arm_rest(&self, arm_n: f64, s: f64) -> f64 {
        if let Law::Linear { ea_n } = self.law {
            return s * arm_n / (self.scale * ea_n + arm_n);
        }
        let (mut low, mut high) = (0.0, arm_n * s);
        let mut t_n = 0.0;
        for _ in 0..100 {
            let (e, slope) = self.law.strain_and_slope(t_n / self.scale);
            let miss = t_n - arm_n * (s - e);
            if miss < 0.0 {
                low = t_n;
            } else {
                high = t_n;
            }
            let newton = t_n - miss / (1.0 + arm_n * slope / self.scale);
            let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if (next - t_n).abs() <= 1e-16 * arm_n * s {
                break;
            }
            t_n = next;
        }
        self.law.strain(t_n / self.scale)
    }

    /// Strain of the rope itself.
    fn own(&self, e: f64, s: f64, taut: bool) -> f64 {
        if taut { e } else { self.rest_strain(s) }
    }

    /// Tension of Eq. (D2) or (D4) before clipping; `rate` is de/dt.
    pub fn trial_n(&self, e: f64, rate: f64, s: f64) -> f64 {
        let spring = self.spring_n(e);
        match self.damper {
            Damper::None => spring,
            Damper::Arm { arm_n, .. } => spring + arm_n * (e - s),
            Damper::Beside { retardation_s } => spring + retardation_s * self.tangent_n(e) * rate,
        }
    }

    /// Below zero where a taut rope goes slack, above where a slack one goes taut.
    pub fn margin(&self, e: f64, rate: f64, s: f64, taut: bool) -> f64 {
        match self.damper {
            Damper::None => e,
            Damper::Arm { .. } => e - self.rest_strain(s),
            Damper::Beside { .. } if taut => self.trial_n(e, rate, s) / self.tangent_n(e),
            Damper::Beside { .. } => e - s,
        }
    }

    /// Rate of the strain of the rope while a device holds its tension, Eq. (D8).
    pub fn held_rate(&self, e: f64, s: f64, force_n: f64) -> f64 {
        match self.damper {
            Damper::None => 0.0,
            Damper::Arm { arm_n, relaxation_s } => {
                arm_n * (e - s) / relaxation_s / (self.tangent_n(e) + arm_n)
            }
            Damper::Beside { retardation_s } => {
                (force_n - self.spring_n(e)) / (retardation_s * self.tangent_n(e))
            }
        }
    }

    /// Rates of the state of the damper and of the loss, Eqs. (D2) to (D6).
    pub fn rates(&self, e: f64, rate: f64, s: f64, taut: bool) -> (f64, f64) {
        match self.damper {
            Damper::None => (0.0, 0.0),
            Damper::Arm { arm_n, relaxation_s } => {
                let across = self.own(e, s, taut) - s;
                (across / relaxation_s, self.rest_m * arm_n * across * (across / relaxation_s))
            }
            Damper::Beside { retardation_s } => {
                let own = self.own(e, s, taut);
                let tangent = self.tangent_n(own);
                let speed =
                    if taut { rate } else { -self.spring_n(own) / (retardation_s * tangent) };
                (speed, self.rest_m * retardation_s * tangent * speed * speed)
            }
        }
    }

    /// Energy stored, Eq. (D7).
    pub fn stored_j(&self, e: f64, s: f64, taut: bool) -> f64 {
        let own = self.own(e, s, taut);
        let spring = self.scale * self.law.energy_n(self.law.tension(own));
        let arm = match self.damper {
            Damper::Arm { arm_n, .. } => 0.5 * arm_n * (own - s) * (own - s),
            Damper::None | Damper::Beside { .. } => 0.0,
        };
        self.rest_m * (spring + arm)
    }
}
