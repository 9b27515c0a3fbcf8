//! Extremes of the motion, step by step.

use super::super::space::size;
use super::super::terrain::{Body, Wall};
use super::motion::Motion;

/// A figure at its extreme.
#[derive(Debug, Clone, Copy)]
pub(super) struct Best {
    pub value: f64,
    pub t_s: f64,
    pub body_m: [f64; 3],
    pub ring_m: [f64; 3],
    /// Whether a jump rope was taut.
    pub taut: bool,
}

impl Best {
    const NONE: Self = Self {
        value: f64::NEG_INFINITY,
        t_s: 0.0,
        body_m: [0.0; 3],
        ring_m: [0.0; 3],
        taut: false,
    };

    fn offer(&mut self, value: f64, now: &Now) {
        if value > self.value {
            let Now { t_s, body_m, ring_m, taut, .. } = *now;
            *self = Self { value, t_s, body_m, ring_m, taut };
        }
    }

    /// Axis of the body there.
    pub fn axis(&self, body: &Body) -> [[f64; 3]; 2] {
        body.axis(self.body_m, self.ring_m, self.taut)
    }

    pub fn seen(&self) -> bool {
        self.value > f64::NEG_INFINITY
    }
}

/// The instant of a step: places, and velocity of the body, at the same time.
#[expect(clippy::struct_excessive_bools, reason = "each is true or not by itself")]
#[derive(Debug, Clone, Copy)]
pub(super) struct Now {
    pub t_s: f64,
    pub dt_s: f64,
    pub body_m: [f64; 3],
    pub ring_m: [f64; 3],
    pub v_m_per_s: [f64; 3],
    pub ring_speed_m_per_s: f64,
    /// Distance from ring to body.
    pub apart_m: f64,
    pub resultant_n: f64,
    /// A jump rope is taut.
    pub taut: bool,
    pub caught: bool,
    pub risen: bool,
    pub left_zone: bool,
}

/// Greatest values so far. Least values are kept with their sign turned.
#[derive(Debug, Clone)]
pub(super) struct Watch {
    pub resultant: Best,
    /// Greatest resultant from the catch until the body first rises.
    pub first_peak: Best,
    pub speed: Best,
    pub low: Best,
    /// Ring: low, high, near, far.
    pub ring: [Best; 4],
    /// Pull of the jump ropes on the ring.
    pub load: Best,
    /// First and last segment of each chain.
    pub chains: Vec<[Best; 2]>,
    /// Pull on each anchor.
    pub anchors: Vec<Best>,
    pub above_s: Vec<f64>,
    pub exit: Approach,
    pub walls: Vec<Approach>,
    /// Axis of the body at the step before, and whether a rope was taut.
    before: Option<([[f64; 3]; 2], bool)>,
}

/// Nearest approach of the body. Between looks the body cannot come nearer than it was by more than it
/// has moved, so most steps need no look.
#[derive(Debug, Clone, Copy)]
pub(super) struct Approach {
    /// Distance of the axis of the body, negative; greatest when nearest.
    pub nearest: Best,
    way_m: f64,
}

impl Approach {
    const NONE: Self = Self { nearest: Best::NONE, way_m: 0.0 };

    /// Distance now, if the body may have come nearer than ever.
    fn look(&mut self, now: &Now, moved_m: f64, distance_m: impl Fn() -> f64) -> Option<f64> {
        self.way_m -= moved_m;
        if self.way_m > 0.0 {
            return None;
        }
        let d = distance_m();
        self.nearest.offer(-d, now);
        self.way_m = d + self.nearest.value;
        Some(d)
    }
}

impl Watch {
    pub fn new(chains: usize, anchors: usize, walls: usize, forces: usize) -> Self {
        Self {
            resultant: Best::NONE,
            first_peak: Best::NONE,
            speed: Best::NONE,
            low: Best::NONE,
            ring: [Best::NONE; 4],
            load: Best::NONE,
            chains: vec![[Best::NONE; 2]; chains],
            anchors: vec![Best::NONE; anchors],
            above_s: vec![0.0; forces],
            exit: Approach::NONE,
            walls: vec![Approach::NONE; walls],
            before: None,
        }
    }

    pub fn take(&mut self, motion: &Motion, now: &Now, forces_n: &[f64]) {
        self.resultant.offer(now.resultant_n, now);
        if now.caught && !now.risen {
            self.first_peak.offer(now.resultant_n, now);
        }
        self.speed.offer(size(now.v_m_per_s), now);
        self.low.offer(-now.body_m[2], now);
        let [x, _, z] = now.ring_m;
        for (best, value) in self.ring.iter_mut().zip([-z, z, -x, x]) {
            best.offer(value, now);
        }
        self.load.offer(size(motion.load_n), now);
        let grid = &motion.grid;
        for (best, chain) in self.chains.iter_mut().zip(&grid.chains) {
            best[0].offer(grid.tension_n[chain.first], now);
            best[1].offer(grid.tension_n[chain.last_segment()], now);
        }
        for (best, anchor) in self.anchors.iter_mut().zip(&motion.anchors) {
            best.offer(size(grid.pull_on_n(anchor)), now);
        }
        for (above, force_n) in self.above_s.iter_mut().zip(forces_n) {
            if now.resultant_n > *force_n {
                *above += now.dt_s;
            }
        }
    }

    /// Looks at the walls; the index of one that the body touches.
    pub fn look(&mut self, now: &Now, walls: &[Wall], body: &Body) -> Option<usize> {
        let axis = body.axis(now.body_m, now.ring_m, now.taut);
        let (before, turned) = match self.before.replace((axis, now.taut)) {
            Some((before, taut)) if body.is_ball() || taut == now.taut => (before, false),
            // The axis turns at once: the way between does not count, Eq. (T4).
            Some(_) => (axis, true),
            None => (axis, false),
        };
        let moved_m = if turned {
            f64::INFINITY
        } else {
            let speeds = [size(now.v_m_per_s), now.ring_speed_m_per_s];
            // Twice the way: speed changes within a step.
            2.0 * now.dt_s * body.speed_m_per_s(speeds, now.apart_m, now.taut)
        };
        let touched = |wall: &Wall| body.touches(wall, before, axis);
        if !now.left_zone {
            let nearest =
                || walls.iter().map(|w| body.away_m(w, axis)).fold(f64::INFINITY, f64::min);
            let looked = self.exit.look(now, moved_m, nearest);
            return looked.and_then(|_| walls.iter().position(touched));
        }
        for (i, wall) in walls.iter().enumerate() {
            let looked = self.walls[i].look(now, moved_m, || body.away_m(wall, axis)).is_some();
            if looked && touched(wall) {
                return Some(i);
            }
        }
        None
    }
}
