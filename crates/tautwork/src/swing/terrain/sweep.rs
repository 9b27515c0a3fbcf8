//! The nearest approach of moving points, joined by straight pieces, to a wall, Eq. (T7).

use super::super::SwingError;
use super::super::apart::Track;
use super::super::space::{along, from, size};
use super::near::Near;
use super::wall::Wall;

/// The least distance is known to this, m.
const CLOSE_M: f64 = 1e-3;
/// Most pieces looked at.
const MOST_LOOKS: usize = 2_000_000;

/// What a motion came to.
#[derive(Debug)]
pub(super) struct Swept {
    pub at_samples_m: Vec<f64>,
    pub nearest: Near,
    pub t_s: f64,
    pub touched_s: Option<f64>,
}

/// The samples, and the looks taken so far.
#[derive(Debug)]
pub(super) struct Sweep<'a> {
    times_s: &'a [f64],
    looks: usize,
}

impl<'a> Sweep<'a> {
    pub fn new(times_s: &'a [f64]) -> Self {
        Self { times_s, looks: 0 }
    }

    pub fn past(
        &mut self,
        wall: &Wall,
        points: &[Track],
        radius_m: f64,
    ) -> Result<Swept, SwingError> {
        let first = self.look(wall, points, (0, 0.0))?;
        let mut out = Swept {
            at_samples_m: vec![first.away_m],
            nearest: first,
            t_s: self.times_s[0],
            touched_s: (first.away_m <= radius_m).then_some(self.times_s[0]),
        };
        let mut before = first;
        for k in 0..self.times_s.len() - 1 {
            let after = self.look(wall, points, (k + 1, 0.0))?;
            if out.touched_s.is_none() {
                self.within(wall, points, (k, [before, after]), radius_m, &mut out)?;
            }
            out.at_samples_m.push(after.away_m);
            before = after;
        }
        Ok(out)
    }

    /// Looks from sample k to the next: for the first touch, else for the nearest approach.
    fn within(
        &mut self,
        wall: &Wall,
        points: &[Track],
        (k, ends): (usize, [Near; 2]),
        radius_m: f64,
        out: &mut Swept,
    ) -> Result<(), SwingError> {
        let (t_s, dt_s) = (self.times_s[k], self.times_s[k + 1] - self.times_s[k]);
        let moved = |track: &Track| size(from(track.at_m(k), track.at_m(k + 1)));
        let way_m = points.iter().map(moved).fold(0.0, f64::max);
        let mut nearest = (out.nearest, out.t_s);
        let mut touch: Option<(f64, Near)> = None;
        let mut offer = |near: Near, share: f64, touch: &mut Option<(f64, Near)>| {
            if near.away_m < nearest.0.away_m {
                nearest = (near, t_s + share * dt_s);
            }
            if near.away_m <= radius_m && touch.is_none_or(|(first, _)| share < first) {
                *touch = Some((share, near));
            }
            nearest.0.away_m
        };
        let mut least_so_far_m = offer(ends[1], 1.0, &mut touch);
        // A point may go through a wall between any two looks.
        if let [point] = points
            && let Some(share) = wall.first_crossing(point.at_m(k), point.at_m(k + 1))
        {
            let at = along(point.at_m(k), point.at_m(k + 1), share);
            offer(Near { away_m: 0.0, on_m: at, wall_m: at }, share, &mut touch);
        }
        let mut open = vec![(0.0, 1.0, ends[0].away_m, ends[1].away_m)];
        while let Some((a, b, from_m, to_m)) = open.pop() {
            let way_m = way_m * (b - a);
            let least_m = 0.5 * (from_m + to_m - way_m);
            let hopeless = match touch {
                Some((first, _)) => a >= first || least_m > radius_m || way_m < CLOSE_M,
                None => least_m.max(0.0) >= least_so_far_m - CLOSE_M,
            };
            if hopeless {
                continue;
            }
            let middle = 0.5 * (a + b);
            let near = self.look(wall, points, (k, middle))?;
            least_so_far_m = offer(near, middle, &mut touch);
            // The earlier half is looked at first.
            open.push((middle, b, near.away_m, to_m));
            open.push((a, middle, from_m, near.away_m));
        }
        (out.nearest, out.t_s) = nearest;
        if let Some((share, near)) = touch {
            (out.nearest, out.t_s) = (near, t_s + share * dt_s);
            out.touched_s = Some(out.t_s);
        }
        Ok(())
    }

    /// Nearest points at a share of the interval after sample k.
    fn look(
        &mut self,
        wall: &Wall,
        points: &[Track],
        (k, share): (usize, f64),
    ) -> Result<Near, SwingError> {
        self.looks += points.len();
        if self.looks > MOST_LOOKS {
            let problem = format!("more than {MOST_LOOKS} distances would have to be looked at");
            return Err(SwingError::contradiction("t_s", &problem));
        }
        let at = |track: &Track| match share {
            0.0 => track.at_m(k),
            share => along(track.at_m(k), track.at_m(k + 1), share),
        };
        let mut best = wall.near(at(&points[0]));
        for pair in points.windows(2) {
            let nearer = wall.near_segment(at(&pair[0]), at(&pair[1]), best.away_m);
            best = nearer.unwrap_or(best);
        }
        Ok(best)
    }
}
