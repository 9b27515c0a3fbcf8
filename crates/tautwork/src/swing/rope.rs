//! A jump rope: standard linear solid that takes tension only and keeps its rest strain as a state.

/// One jump rope.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rope {
    /// Rest length, m.
    pub rest_m: f64,
    /// Rest length times linear density, kg.
    pub mass_kg: f64,
    /// Rigidity of the long-term spring, N.
    pub long_n: f64,
    /// Rigidity of the spring in the viscous arm, N.
    pub arm_n: f64,
    /// Relaxation time of the viscous arm, s.
    pub relaxation_s: f64,
    /// It has failed in flight.
    pub lost: bool,
    /// On which branch it is: its spring pulls, or it is slack. The branch changes by an event only, so that
    /// the rates are smooth within a step; beyond the event the branch is followed on.
    pub taut: bool,
    /// One over rest length and relaxation time, and rest strain over viscous strain: asked for at each
    /// evaluation.
    per_m: f64,
    per_s: f64,
    rest_share: f64,
}

/// What a rope does at one strain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Answer {
    pub tension_n: f64,
    pub viscous_rate: f64,
    pub loss_w: f64,
}

impl Rope {
    /// A whole rope.
    pub fn new(rest_m: f64, mass_kg: f64, long_n: f64, arm_n: f64, relaxation_s: f64) -> Self {
        Self {
            rest_m,
            mass_kg,
            long_n,
            arm_n,
            relaxation_s,
            lost: false,
            taut: false,
            per_m: 1.0 / rest_m,
            per_s: 1.0 / relaxation_s,
            rest_share: arm_n / (long_n + arm_n),
        }
    }

    /// Strain at which the rope goes taut, Eq. (5).
    pub fn rest_strain(&self, viscous: f64) -> f64 {
        viscous * self.rest_share
    }

    /// Tension at a geometric strain, Eq. (4). The total is clipped, never the arm.
    pub fn tension_n(&self, strain: f64, viscous: f64) -> f64 {
        self.trial_n(strain, viscous).max(0.0)
    }

    /// Tension before clipping: its sign tells taut from slack.
    pub fn trial_n(&self, strain: f64, viscous: f64) -> f64 {
        if self.lost {
            return 0.0;
        }
        self.long_n * strain + self.arm_n * (strain - viscous)
    }

    /// Strain of the rope itself: the geometric one when taut, the rest strain when slack.
    fn own_strain(&self, strain: f64, viscous: f64) -> f64 {
        if self.taut { strain } else { self.rest_strain(viscous) }
    }

    /// On its branch: tension, Eq. (4), rate of the viscous strain, Eq. (6), and power lost to heat, Eq. (7): a
    /// square, so never negative.
    #[inline]
    pub fn answer(&self, strain: f64, viscous: f64) -> Answer {
        if self.lost {
            return Answer { tension_n: 0.0, viscous_rate: 0.0, loss_w: 0.0 };
        }
        let across = self.own_strain(strain, viscous) - viscous;
        let viscous_rate = across * self.per_s;
        let loss_w = self.rest_m * self.arm_n * across * viscous_rate;
        let tension_n = if self.taut { self.trial_n(strain, viscous) } else { 0.0 };
        Answer { tension_n, viscous_rate, loss_w }
    }

    /// Energy stored in both springs, Eq. (8), on its branch.
    pub fn stored_j(&self, strain: f64, viscous: f64) -> f64 {
        if self.lost {
            return 0.0;
        }
        let own = self.own_strain(strain, viscous);
        let across = own - viscous;
        0.5 * self.rest_m * (self.long_n * own * own + self.arm_n * across * across)
    }

    /// Geometric strain over a distance between the ends.
    pub fn strain(&self, distance_m: f64) -> f64 {
        distance_m * self.per_m - 1.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rope() -> Rope {
        Rope::new(10.0, 0.7, 10e3, 15e3, 0.2)
    }

    /// The answer on the branch of a state.
    fn there(rope: &Rope, strain: f64, viscous: f64) -> Answer {
        let taut = rope.trial_n(strain, viscous) > 0.0;
        Rope { taut, ..rope.clone() }.answer(strain, viscous)
    }

    /// Integrates the viscous strain along a strain history by midpoint steps: (viscous, least
    /// tension, least loss, work done on the rope, loss).
    fn drive(
        rope: &Rope,
        mut viscous: f64,
        seconds: f64,
        path: impl Fn(f64) -> f64,
    ) -> (f64, f64, f64, f64, f64) {
        let n = 20_000;
        let dt = seconds / f64::from(n);
        let (mut least_t, mut least_loss, mut work, mut loss) = (f64::MAX, f64::MAX, 0.0, 0.0);
        for i in 0..n {
            let t = f64::from(i) * dt;
            let half = viscous + 0.5 * dt * there(rope, path(t), viscous).viscous_rate;
            let e = path(t + 0.5 * dt);
            let now = there(rope, e, half);
            work += now.tension_n * (path(t + dt) - path(t)) * rope.rest_m;
            loss += now.loss_w * dt;
            least_t = least_t.min(now.tension_n);
            least_loss = least_loss.min(now.loss_w);
            viscous += dt * now.viscous_rate;
        }
        (viscous, least_t, least_loss, work, loss)
    }

    #[test]
    fn a_rope_just_unloaded_is_longer_than_its_rest_length() {
        let rope = rope();
        // Ten percent up in a second, then back to slack in 10 ms.
        let (up, low_a, loss_a, work_a, heat_a) = drive(&rope, 0.0, 1.0, |t| 0.1 * t);
        let (down, low_b, loss_b, work_b, heat_b) = drive(&rope, up, 0.01, |t| 0.1 - 10.0 * t);
        let (soon, _, loss_c, _, heat_c) = drive(&rope, down, 0.1 * rope.relaxation_s, |_| 0.0);
        let (late, _, loss_d, _, _) = drive(&rope, down, 10.0 * rope.relaxation_s, |_| 0.0);
        assert!(low_a >= 0.0 && low_b >= 0.0);
        assert!(loss_a >= 0.0 && loss_b >= 0.0 && loss_c >= 0.0 && loss_d >= 0.0);
        let (first, later) = (rope.rest_strain(soon), rope.rest_strain(late));
        assert!(first > 0.03 && later < 0.02 * first.max(0.0) + 0.002, "{first} {later}");
        // Taut exactly where the rest strain says.
        assert!(rope.tension_n(first + 1e-9, soon) > 0.0);
        assert_eq!(rope.tension_n(first - 1e-9, soon), 0.0);
        // Work in = stored + lost, over the whole cycle.
        let stored = rope.stored_j(0.0, soon);
        let lost = heat_a + heat_b + heat_c;
        assert!((work_a + work_b - stored - lost).abs() < 1e-5 * work_a);
    }

    #[test]
    fn slack_rest_strain_decays_at_the_closed_form_rate() {
        // At zero total tension e_v' = -(long / (long + arm)) e_v / tau, an exponential.
        let rope = rope();
        let (after, ..) = drive(&rope, 0.05, 0.2, |_| -0.5);
        let exact = 0.05 * (-(10.0 / 25.0) * 0.2 / 0.2_f64).exp();
        assert!((after - exact).abs() < 1e-9);
    }

    #[test]
    fn fast_and_slow_limits_are_the_two_moduli() {
        let rope = rope();
        assert_eq!(rope.tension_n(0.1, 0.0), 0.1 * 25e3);
        let (held, ..) = drive(&rope, 0.0, 4.0, |_| 0.1);
        assert!((rope.tension_n(0.1, held) - 0.1 * 10e3).abs() < 1e-3);
    }
}
