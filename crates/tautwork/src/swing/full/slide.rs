//! A line that the ring slides along: slip with friction, and masses that pass the ring, Eq. (F20) to (F23).

use super::super::space::{dot, from, size};
use super::grid::{Chain, Grid};
use super::motion::Lump;
use super::plan::{Hold, NEAREST, Strand};
use super::table::Table;
use crate::quantity::GRAVITY;

/// Steps of the search for a place of slip on a curve.
const STEPS: usize = 60;

/// The two halves of a line at the ring.
#[derive(Debug, Clone)]
pub(super) struct Slider {
    /// Chains from each anchor to the ring.
    halves: [usize; 2],
    hold: Hold,
    rest_m: f64,
    mass_kg: f64,
    drag_per_m: f64,
    ea_n: f64,
    /// Rest length from the near anchor to the ring: at the start, least and greatest, m.
    pub start_m: f64,
    pub range_m: [f64; 2],
    /// How much line went through the ring, to and fro, m.
    pub travel_m: f64,
    pub lost_j: f64,
    /// What the masses that passed the ring lost, J: it goes with the length of a segment.
    pub passed_j: f64,
    /// The ring has come to an anchor.
    pub ran_to_anchor: bool,
    /// Halves that are cut off from their anchors.
    cut: [bool; 2],
    /// Nothing of the line is left at the ring.
    gone: bool,
}

impl Slider {
    /// Of the chains of one line, if the ring slides along it.
    pub fn new(strands: &[Strand], grid: &Grid, near: usize) -> Option<Self> {
        let strand = &strands[near];
        let start_m = strand.length_m();
        Some(Self {
            halves: [near, near + 1],
            hold: strand.hold?,
            rest_m: strand.rest_m,
            mass_kg: strand.mass_kg,
            drag_per_m: grid.chains[near].drag_per_m,
            ea_n: grid.long_n[grid.chains[near].first],
            start_m,
            range_m: [start_m; 2],
            travel_m: 0.0,
            lost_j: 0.0,
            passed_j: 0.0,
            ran_to_anchor: false,
            cut: [false; 2],
            gone: false,
        })
    }

    /// Whether it is the line whose near half is this chain.
    pub fn is_of(&self, near: usize) -> bool {
        self.halves[0] == near
    }

    /// Cuts a half off its anchor.
    pub fn cut(&mut self, grid: &Grid, half: usize) {
        self.cut[half] = true;
        self.gone |= grid.chains[self.halves[half]].segments == 1;
    }

    /// Takes the line out of the ring.
    pub fn lose(&mut self) {
        self.gone = true;
    }

    /// Rest length from the near anchor to the ring, m.
    pub fn near_m(&self, grid: &Grid) -> f64 {
        let near = &grid.chains[self.halves[0]];
        (near.segments - 1) as f64 * self.rest_m + grid.rest_m[near.last_segment()]
    }

    /// Lets the line slip at the ring as far as friction allows, and passes masses that it came up to.
    pub fn slip(&mut self, grid: &mut Grid, ring: &mut Lump) {
        if self.gone {
            return;
        }
        let chains = self.halves.map(|k| grid.chains[k].clone());
        let at = chains.each_ref().map(Chain::last_segment);
        let arms = at.map(|i| from(ring.at_m, grid.at_m(i)));
        let d = arms.map(size);
        let rest = at.map(|i| grid.rest_m[i]);
        let curve = grid.curve(&chains[0]);
        let pull = |half: usize, rest_m: f64| {
            let e = d[half] / rest_m - 1.0;
            curve.map_or_else(|| (self.ea_n * e).max(0.0), |c| c.tension_n(e))
        };
        let now = [pull(0, rest[0]), pull(1, rest[1])];
        let mu = self.hold.mu;
        let ratio = if mu > 0.0 {
            let cos = -dot(arms[0], arms[1]) / (d[0] * d[1]);
            (mu * cos.clamp(-1.0, 1.0).acos()).exp()
        } else {
            1.0
        };
        // Line comes over the ring to the side that pulls harder.
        let Some(to) = [0, 1].into_iter().find(|to| now[*to] > ratio * now[1 - to]) else { return };
        let both_m = rest[0] + rest[1];
        let wanted_m = if d[0] + d[1] <= both_m {
            // There is slack for both.
            d[to]
        } else if let Some(curve) = curve {
            on_curve(curve, [d[to], d[1 - to]], both_m, rest[to], ratio)
        } else {
            on_line([d[to], d[1 - to]], both_m, ratio)
        };
        // Up to the stop, and only so far that the masses beside the ring can follow.
        let near_m = self.near_m(grid);
        let [low_m, high_m] = self.hold.stops_m;
        let (left_m, stop) = if to == 0 { (high_m - near_m, 1) } else { (near_m - low_m, 0) };
        let most_m = both_m - 1e-3 * self.rest_m;
        let taken_m = wanted_m.min(rest[to] + left_m).min(most_m).max(rest[to]);
        self.ran_to_anchor |= wanted_m > rest[to] + left_m && self.hold.anchors[stop];
        let slipped_m = taken_m - rest[to];
        let before_n = (grid.tension_n[at[0]] - grid.tension_n[at[1]]).abs();
        let mut after = rest;
        (after[to], after[1 - to]) = (taken_m, both_m - taken_m);
        let after_n = (pull(0, after[0]) - pull(1, after[1])).abs();
        if mu > 0.0 {
            self.lost_j += 0.5 * (before_n + after_n) * slipped_m;
        }
        for (i, rest_m) in at.into_iter().zip(after) {
            (grid.rest_m[i], grid.per_rest[i]) = (rest_m, 1.0 / rest_m);
        }
        self.travel_m += slipped_m;
        if after[1 - to] < NEAREST * self.rest_m {
            self.pass(grid, ring, 1 - to);
        }
        let near_m = self.near_m(grid);
        self.range_m = [self.range_m[0].min(near_m), self.range_m[1].max(near_m)];
    }

    /// The ring takes up the last mass of one half and sets down a mass on the other, Eq. (F22).
    fn pass(&mut self, grid: &mut Grid, ring: &mut Lump, giver: usize) {
        let [give, take] = [giver, 1 - giver].map(|half| self.halves[half]);
        if grid.chains[give].segments == 1 {
            return;
        }
        if self.cut[giver] && grid.chains[give].segments == 2 {
            // The free end comes to the ring and runs out of it.
            self.gone = true;
            for chain in [give, take] {
                let last = grid.chains[chain].last_segment();
                grid.unload(last);
            }
            return;
        }
        let (g, r) = (grid.chains[give].last_segment(), grid.chains[take].last_point());
        let (u, w) = (from(grid.at_m(g), ring.at_m), from(ring.at_m, grid.at_m(r - 1)));
        let part = 1.0 - self.rest_m / grid.rest_m[r - 1];
        let before_j = self.energy_j(grid, ring, [g - 1, g], [r - 1, r - 1], g);
        // The speed at which the line comes goes on in the new direction, Eq. (F23).
        let comes = from(ring.v_m_per_s, grid.v_m_per_s(g));
        let goes = from(ring.v_m_per_s, grid.v_m_per_s(r - 1));
        let along = dot(comes, u) / size(u).max(f64::MIN_POSITIVE);
        let far2 = dot(w, w).max(f64::MIN_POSITIVE);
        let across = [0, 1, 2].map(|k| part * (goes[k] - dot(goes, w) / far2 * w[k]));
        let v = [0, 1, 2].map(|k| ring.v_m_per_s[k] + along * w[k] / far2.sqrt() + across[k]);
        if !ring.held {
            let given = from(v, grid.v_m_per_s(g));
            for (at, given) in ring.v_m_per_s.iter_mut().zip(given) {
                *at += self.mass_kg / ring.mass_kg * given;
            }
        }
        let set_down = [0, 1, 2].map(|k| ring.at_m[k] + part * w[k]);
        let (rest_m, long_n) = (self.rest_m, grid.long_n[r - 1]);
        // The half that gives: its last mass becomes the end at the ring.
        grid.rest_m[g - 1] = rest_m + grid.rest_m[g];
        grid.per_rest[g - 1] = 1.0 / grid.rest_m[g - 1];
        grid.unload(g);
        grid.place(g, ring.at_m, [0.0; 3], 0.0, 0.0);
        grid.chains[give].segments -= 1;
        // The half that takes: its end becomes a mass.
        let last_m = grid.rest_m[r - 1] - rest_m;
        (grid.rest_m[r - 1], grid.per_rest[r - 1]) = (rest_m, 1.0 / rest_m);
        (grid.rest_m[r], grid.per_rest[r], grid.long_n[r]) = (last_m, 1.0 / last_m, long_n);
        grid.place(r, set_down, v, self.mass_kg, self.drag_per_m);
        grid.place(r + 1, ring.at_m, [0.0; 3], 0.0, 0.0);
        grid.chains[take].segments += 1;
        if self.cut[giver] && grid.chains[give].segments == 1 {
            grid.unload(g - 1);
        }
        self.passed_j += before_j - self.energy_j(grid, ring, [g - 1, g - 1], [r - 1, r], r);
    }

    /// Energy of the ring, of one mass, and of the segments beside the ring.
    fn energy_j(
        &self,
        grid: &Grid,
        ring: &Lump,
        give: [usize; 2],
        take: [usize; 2],
        mass: usize,
    ) -> f64 {
        let v = grid.v_m_per_s(mass);
        let stored = |[a, b]: [usize; 2], chain: usize| {
            let table = grid.curve(&grid.chains[chain]);
            (a..=b).map(|i| grid.segment_j(i, table)).sum::<f64>()
        };
        let ring_j = if ring.held { 0.0 } else { ring.kinetic_j() };
        // Both halves have the same spring.
        ring_j
            + self.mass_kg * (0.5 * dot(v, v) + GRAVITY * grid.z_m[mass])
            + stored(give, self.halves[0])
            + stored(take, self.halves[0])
    }
}

/// Rest length of the side that pulls, for linear segments with lengths d: T₁ = R T₂, Eq. (F21).
fn on_line(d: [f64; 2], both_m: f64, ratio: f64) -> f64 {
    // a x² − b x + c = 0 with x between nothing and all; of both forms the one without a difference.
    let a = 1.0 - ratio;
    let b = d[0] + both_m * a + ratio * d[1];
    let c = both_m * d[0];
    2.0 * c / (b + (b * b - 4.0 * a * c).max(0.0).sqrt())
}

/// The same on a curve, by false position between `from_m` and all.
fn on_curve(curve: &Table, d: [f64; 2], both_m: f64, from_m: f64, ratio: f64) -> f64 {
    let over = |x: f64| {
        curve.tension_n(d[0] / x - 1.0) - ratio * curve.tension_n(d[1] / (both_m - x) - 1.0)
    };
    let (mut low, mut high) = (from_m, both_m * (1.0 - 1e-9));
    let (mut at_low, mut at_high) = (over(low), over(high));
    if !(at_low > 0.0 && at_high < 0.0) {
        return from_m;
    }
    let mut x = low;
    for step in 0..STEPS {
        // Halving now and then keeps the bracket from shrinking on one side only.
        x = if step % 3 == 2 {
            0.5 * (low + high)
        } else {
            (low * at_high - high * at_low) / (at_high - at_low)
        };
        let f = over(x);
        if f > 0.0 {
            (low, at_low) = (x, f);
        } else {
            (high, at_high) = (x, f);
        }
        if high - low <= 1e-13 * both_m || f == 0.0 {
            break;
        }
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_ends_where_friction_holds() {
        for (d, ratio) in
            [([1.3, 0.9], 1.0), ([1.3, 0.9], 1.2), ([0.2, 2.5], 1.0), ([2.0, 1.0], 7.0)]
        {
            let x = on_line(d, 2.0, ratio);
            assert!(x > 0.0 && x < 2.0);
            let pulls = [d[0] / x - 1.0, d[1] / (2.0 - x) - 1.0];
            assert!((pulls[0] - ratio * pulls[1]).abs() < 1e-12, "{d:?} {ratio}: {pulls:?}");
        }
    }
}
