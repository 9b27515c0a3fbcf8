//! A solved chain, link by link: what is anywhere along it.

use nalgebra::Vector3;

use super::links::{Link, Links};

/// Distance from the far anchor, over the length, at which a level counts as met there.
const CLOSED_AT_END: f64 = 1e-12;

/// A point along a solved chain.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mark {
    pub place_m: Vector3<f64>,
    pub pull_n: Vector3<f64>,
    pub strain: f64,
}

/// Where each link starts, and the pull there.
pub(super) struct Course<'a> {
    links: &'a [Link],
    starts: Vec<(Vector3<f64>, Vector3<f64>)>,
    pub end_pull_n: Vector3<f64>,
}

impl<'a> Course<'a> {
    pub fn new(links: &'a Links, pull_n: Vector3<f64>) -> Self {
        let mut run = Links::start(pull_n);
        let mut starts = Vec::with_capacity(links.0.len());
        for link in &links.0 {
            starts.push((run.end_m, run.pull_n));
            if link.rest_m > 0.0 {
                link.extend(&mut run);
            }
            run.pull_n -= link.load_n;
        }
        Self { links: &links.0, starts, end_pull_n: run.pull_n }
    }

    /// Links with the pull at their start.
    pub fn links(&self) -> impl Iterator<Item = (&Link, Vector3<f64>)> {
        self.links.iter().zip(&self.starts).map(|(link, &(_, pull))| (link, pull))
    }

    /// What is at rest arc length s, on the side of the near end of a load or joint there.
    pub fn before(&self, s_m: f64) -> Mark {
        self.mark(self.links.partition_point(|l| l.from_m < s_m).max(1) - 1, s_m)
    }

    /// The same on the side of the far end.
    pub fn after(&self, s_m: f64) -> Mark {
        self.mark(self.links.partition_point(|l| l.from_m <= s_m).max(1) - 1, s_m)
    }

    fn mark(&self, index: usize, s_m: f64) -> Mark {
        let link = &self.links[index];
        let mut run = Links::start(self.starts[index].1);
        run.end_m = self.starts[index].0;
        let into_m = (s_m - link.from_m).min(link.rest_m);
        if into_m > 0.0 {
            Link { rest_m: into_m, ..link.clone() }.extend(&mut run);
        }
        let strain = link.law.strain(run.pull_n.norm());
        Mark { place_m: run.end_m, pull_n: run.pull_n, strain }
    }

    /// Rest arc lengths inside links at which the line runs across `normal`: T(s) is linear in s.
    pub fn turns_m(&self, normal: &Vector3<f64>) -> impl Iterator<Item = f64> {
        self.links().filter_map(move |(link, pull)| {
            let s = pull.dot(normal) / (link.q_n_per_m * link.down.dot(normal));
            (s > 0.0 && s < link.rest_m).then_some(link.from_m + s)
        })
    }

    /// Rest arc lengths at which the line passes a level of its place along `normal`, Eq. (18).
    ///
    /// Where a whole link lies in the level, its ends stand for it.
    pub fn crossings_m(&self, normal: &Vector3<f64>, level_m: f64, scale_m: f64) -> Vec<f64> {
        let height = |index: usize, s_m: f64| {
            (self.mark(index, s_m).place_m.dot(normal) - level_m) / scale_m
        };
        let mut found: Vec<f64> = Vec::new();
        let last = self.links.len() - 1;
        for (i, (link, pull)) in self.links().enumerate() {
            let turn = pull.dot(normal) / (link.q_n_per_m * link.down.dot(normal));
            let to = link.from_m + link.rest_m;
            let mut cuts = vec![link.from_m, to];
            if turn > 0.0 && turn < link.rest_m {
                cuts.insert(1, link.from_m + turn);
            }
            // Between its turns a link goes one way only.
            for pair in cuts.windows(2) {
                let (at_low, mut at_high) = (height(i, pair[0]), height(i, pair[1]));
                // The chain ends at its anchor up to the tolerance of the solver.
                if i == last && pair[1] == to && at_high.abs() <= CLOSED_AT_END {
                    at_high = 0.0;
                }
                for (s, h) in [(pair[0], at_low), (pair[1], at_high)] {
                    if h == 0.0 {
                        found.push(s);
                    }
                }
                if at_low * at_high < 0.0 {
                    found.push(between(pair[0], pair[1], at_low < 0.0, |s| height(i, s)));
                }
            }
        }
        found.sort_by(f64::total_cmp);
        found.dedup();
        found
    }
}

/// Root of a monotone function by bisection, to the last place.
fn between(mut low: f64, mut high: f64, rises: bool, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..200 {
        let mid = 0.5 * (low + high);
        if mid <= low || mid >= high {
            break;
        }
        let value = f(mid);
        if value == 0.0 {
            return mid;
        }
        if (value < 0.0) == rises { low = mid } else { high = mid }
    }
    0.5 * (low + high)
}
