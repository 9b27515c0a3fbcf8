//! Strain as a function of tension: a straight law, or a monotone cubic through a table.

/// A stretch law in SI, as the kernels use it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Law {
    Linear { ea_n: f64 },
    Curve(Curve),
}

/// Monotone cubic through points (tension, strain), Eq. (2); straight past the last point.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Curve {
    t_n: Vec<f64>,
    e: Vec<f64>,
    slope: Vec<f64>,
}

impl Law {
    /// Strain and its derivative by tension.
    pub fn strain_and_slope(&self, t_n: f64) -> (f64, f64) {
        match self {
            Self::Linear { ea_n } => (t_n / ea_n, 1.0 / ea_n),
            Self::Curve(curve) => curve.strain_and_slope(t_n),
        }
    }

    /// Strain.
    pub fn strain(&self, t_n: f64) -> f64 {
        self.strain_and_slope(t_n).0
    }

    /// Tension at a strain; zero for a slack line.
    pub fn tension(&self, e: f64) -> f64 {
        if e <= 0.0 {
            return 0.0;
        }
        match self {
            Self::Linear { ea_n } => ea_n * e,
            Self::Curve(curve) => curve.tension(e),
        }
    }

    /// Energy per rest length, ∫ T de from 0 to the strain of this tension.
    pub fn energy_n(&self, t_n: f64) -> f64 {
        match self {
            Self::Linear { ea_n } => 0.5 * t_n * (t_n / ea_n),
            Self::Curve(curve) => t_n * curve.strain_and_slope(t_n).0 - curve.integral(t_n),
        }
    }

    /// Tensions at which the third derivative jumps.
    pub fn knots(&self) -> &[f64] {
        match self {
            Self::Linear { .. } => &[],
            Self::Curve(curve) => &curve.t_n[1..],
        }
    }

    /// The tension past which the curve is extrapolated.
    pub fn last_n(&self) -> f64 {
        match self {
            Self::Linear { .. } => f64::INFINITY,
            Self::Curve(curve) => curve.t_n[curve.t_n.len() - 1],
        }
    }
}

impl Curve {
    /// Points must be strictly increasing in both and start at (0, 0); the caller has checked.
    pub fn new(t_n: Vec<f64>, e: Vec<f64>) -> Self {
        let n = t_n.len();
        let secant: Vec<f64> =
            (0..n - 1).map(|i| (e[i + 1] - e[i]) / (t_n[i + 1] - t_n[i])).collect();
        // Fritsch and Carlson (1980): mean of the secants, then pulled into the circle of radius 3
        // in which each cubic is monotone.
        let mut slope: Vec<f64> = (0..n)
            .map(|i| match i {
                0 => secant[0],
                i if i == n - 1 => secant[n - 2],
                i => 0.5 * (secant[i - 1] + secant[i]),
            })
            .collect();
        for i in 0..n - 1 {
            let (a, b) = (slope[i] / secant[i], slope[i + 1] / secant[i]);
            let r = a.hypot(b);
            if r > 3.0 {
                slope[i] = 3.0 / r * a * secant[i];
                slope[i + 1] = 3.0 / r * b * secant[i];
            }
        }
        Self { t_n, e, slope }
    }

    /// False if a secant or slope left the range of doubles.
    pub fn is_sound(&self) -> bool {
        self.slope.iter().all(|m| m.is_finite() && *m > 0.0)
    }

    /// Index of the interval that holds `x` in an increasing list, or `None` past its end.
    fn interval(list: &[f64], x: f64) -> Option<usize> {
        let i = list.partition_point(|p| *p <= x);
        (i < list.len()).then(|| i.max(1) - 1)
    }

    fn strain_and_slope(&self, t: f64) -> (f64, f64) {
        let last = self.t_n.len() - 1;
        let Some(i) = Self::interval(&self.t_n, t) else {
            return (self.e[last] + self.slope[last] * (t - self.t_n[last]), self.slope[last]);
        };
        let (c0, c1, c2, c3, u) = self.cubic(i, t);
        (c0 + u * (c1 + u * (c2 + u * c3)), c1 + u * (2.0 * c2 + u * 3.0 * c3))
    }

    /// Coefficients of powers of u = T - Tᵢ in interval i, and u.
    fn cubic(&self, i: usize, t: f64) -> (f64, f64, f64, f64, f64) {
        let dt = self.t_n[i + 1] - self.t_n[i];
        let secant = (self.e[i + 1] - self.e[i]) / dt;
        let (m0, m1) = (self.slope[i], self.slope[i + 1]);
        let c2 = (3.0 * secant - 2.0 * m0 - m1) / dt;
        let c3 = (m0 + m1 - 2.0 * secant) / (dt * dt);
        (self.e[i], m0, c2, c3, t - self.t_n[i])
    }

    fn tension(&self, e: f64) -> f64 {
        let last = self.t_n.len() - 1;
        let Some(i) = Self::interval(&self.e, e) else {
            return self.t_n[last] + (e - self.e[last]) / self.slope[last];
        };
        // Newton kept inside its bracket: the cubic is monotone there.
        let (mut low, mut high) = (self.t_n[i], self.t_n[i + 1]);
        let mut t = low + (high - low) * (e - self.e[i]) / (self.e[i + 1] - self.e[i]);
        for _ in 0..80 {
            let (value, slope) = self.strain_and_slope(t);
            if value < e {
                low = t;
            } else {
                high = t;
            }
            let next = t - (value - e) / slope;
            let next = if next > low && next < high { next } else { 0.5 * (low + high) };
            if (next - t).abs() <= 1e-15 * self.t_n[i + 1] {
                return next;
            }
            t = next;
        }
        t
    }

    /// ∫ e dT from 0.
    fn integral(&self, t: f64) -> f64 {
        let last = self.t_n.len() - 1;
        let whole = |i: usize, to: f64| {
            let (c0, c1, c2, c3, u) = self.cubic(i, to);
            u * (c0 + u * (c1 / 2.0 + u * (c2 / 3.0 + u * c3 / 4.0)))
        };
        let end = Self::interval(&self.t_n, t).unwrap_or(last);
        let below: f64 = (0..end).map(|i| whole(i, self.t_n[i + 1])).sum();
        if end == last {
            let u = t - self.t_n[last];
            below + u * (self.e[last] + 0.5 * self.slope[last] * u)
        } else {
            below + whole(end, t)
        }
    }
}
