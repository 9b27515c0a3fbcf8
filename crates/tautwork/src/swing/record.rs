//! Takes each step of a run into its record.

use super::inside::root;
use super::look::Seen;
use super::model::{BODY, Model, RING, VISCOUS, speed};
use super::space::{from, size, three};
use super::step::Step;
use super::support::Support;
use super::walk::Walk;
use super::watch::GRID;
use crate::quantity::GRAVITY;

impl Walk<'_> {
    /// Takes a step into the record: extremes, passes, stillness and samples. Its end is the next start.
    pub fn keep<S: Support>(&mut self, model: &mut Model<S>, step: &Step) {
        self.phase.taut = model.hangs();
        self.out.watch.take(model, self.course, step, &mut self.looks, self.phase);
        if let Some((_, after)) = &mut self.out.after {
            after.take(model, self.course, step, &mut self.looks, self.phase);
        }
        let weight_n = model.body_kg * GRAVITY;
        for (k, theta) in GRID.into_iter().enumerate().skip(1) {
            let t_s = step.t_s + theta * step.h_s;
            self.pass(step, k);
            let [before, now] = [&self.looks[k - 1], &self.looks[k]];
            if self.phase.taut {
                // A chord of the unit sphere: steps turn by hundredths of a radian.
                let chord = size(from(before.seen.toward, now.seen.toward));
                self.out.turned_rad += 2.0 * (0.5 * chord).min(1.0).asin();
            }
            let force = (now.seen.force_n - weight_n).abs() / weight_n;
            let fastest = speed(&now.y, BODY).max(speed(&now.y, RING));
            let still =
                fastest <= self.course.settled_speed_m_per_s && force <= self.course.settled_force;
            self.still_since_s = still.then(|| self.still_since_s.unwrap_or(t_s));
        }
        let end_s = step.t_s + step.h_s;
        loop {
            let t_s = self.samples as f64 * self.course.sample_s;
            if t_s > end_s || t_s < step.t_s {
                break;
            }
            step.read(((t_s - step.t_s) / step.h_s).min(1.0), &mut self.scratch);
            self.sample(model, t_s);
            self.samples += 1;
        }
        self.looks.swap(0, 2);
    }

    /// Books the time at which the body passes its rest position between two looks.
    fn pass(&mut self, step: &Step, k: usize) {
        let course = self.course;
        let past_m = |y: &[f64]| {
            let p = three(y, BODY);
            (p[0] - course.rest_m[0]) * course.ahead[0]
                + (p[1] - course.rest_m[1]) * course.ahead[1]
        };
        let past = past_m(&self.looks[k].y);
        let side = past > 0.0;
        if self.phase.caught && self.side.is_some_and(|was| was != side) {
            let before = past_m(&self.looks[k - 1].y);
            let scratch = &mut self.scratch;
            let theta = root((GRID[k - 1], before), (GRID[k], past), |theta| {
                step.read(theta, scratch);
                past_m(scratch)
            });
            self.out.passes_s.push(step.t_s + theta * step.h_s);
        }
        self.side = Some(side);
    }

    /// Takes the state in the scratch into the series.
    fn sample<S: Support>(&mut self, model: &mut Model<S>, t_s: f64) {
        let (series, y) = (&mut self.out.series, &self.scratch);
        series.t_s.push(t_s);
        let [x, left, z] = three(y, BODY);
        series.x_m.push(x);
        series.y_m.push(left);
        series.z_m.push(z);
        let ring = three(y, RING);
        series.ring_x_m.push(ring[0]);
        series.ring_y_m.push(ring[1]);
        series.ring_z_m.push(ring[2]);
        let seen = Seen::new(model, y);
        series.resultant_n.push(seen.force_n);
        for (i, column) in series.rope_tension_n.iter_mut().enumerate() {
            let rope = &model.ropes[i];
            column.push(rope.tension_n(rope.strain(seen.distance_m), y[VISCOUS + i]));
        }
        for (i, column) in series.stop_tension_n.iter_mut().enumerate() {
            column.push(model.tension_n(y, model.ropes.len() + i));
        }
        model.support.anchor_pulls_n(ring, &mut self.pulls_n);
        for (line, [near, far]) in self.pulls_n.iter().enumerate() {
            series.line_near_tension_n[line].push(size(*near));
            series.line_far_tension_n[line].push(size(*far));
        }
        for (anchor, column) in self.course.anchors.iter().zip(&mut series.anchor_force_n) {
            column.push(anchor.pull_n(model, y, |_, line, end| self.pulls_n[line][end]));
        }
    }
}
