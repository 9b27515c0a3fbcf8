//! Follows the motion step by step to contact, rest or horizon.

use super::super::SwingError;
use super::super::course::{Caught, Course};
use super::super::fault::Part;
use super::super::flight::{Ending, Happening};
use super::super::lines::Lines;
use super::super::space::{from, size};
use super::super::support::Support;
use super::answer::FullSeries;
use super::books::Energies;
use super::motion::{Lump, Motion};
use super::ropes::RopeWatch;
use super::slide::Slider;
use super::watch::{Now, Watch};
use crate::quantity::{GRAVITY, Quantity, Speed, Time, print};

/// Steps between two looks at the energy books.
const BOOK_EVERY: usize = 100;

/// Steps and what the jump ropes are to reach.
#[derive(Debug, Clone)]
pub(super) struct Pace {
    pub dt_s: f64,
    pub steps: usize,
    pub sample_every: usize,
    /// Rest length of each jump rope, m.
    pub ropes_m: Vec<f64>,
    /// Mass of the jumper alone, kg.
    pub jumper_kg: f64,
    /// Error of the energy books over the energy of the fall at which a run is given up.
    pub drift: f64,
}

/// What happened, in SI.
#[derive(Debug)]
pub(super) struct Outcome {
    pub watch: Watch,
    pub ropes: RopeWatch,
    pub events: Vec<(f64, [f64; 3], Happening)>,
    pub caught: Option<Caught>,
    pub risen: Option<(f64, [f64; 3])>,
    pub left_zone: bool,
    pub ending: Ending,
    pub t_s: f64,
    pub end_m: [f64; 3],
    pub settled_s: Option<f64>,
    pub at_exit: Energies,
    pub at_end: Energies,
    /// Greatest error of the energy books, and the energy of the fall, Eq. (F18).
    pub off_j: f64,
    pub fall_j: f64,
    pub series: FullSeries,
    /// Greatest tension of each line if at rest at the sampled places of the ring, N.
    pub quasi_static_n: Vec<f64>,
    /// Figures from the first fault on, and its time.
    pub after: Option<(f64, Watch)>,
    /// Stored where parts broke, J.
    pub failed_j: f64,
    pub sliders: Vec<Slider>,
    pub steps: usize,
}

/// The motion and everything that watches it.
pub(super) struct Run<'a> {
    pub motion: Motion,
    pub course: &'a Course,
    pub pace: Pace,
    /// The lines as if at rest; none for a fixed ring.
    pub quiet: Option<Lines>,
    taut: Vec<bool>,
    /// Parts that have failed.
    failed: usize,
    still_since_s: Option<f64>,
    exit_m: [f64; 3],
    pub out: Outcome,
}

impl<'a> Run<'a> {
    pub fn new(motion: Motion, course: &'a Course, pace: Pace, quiet: Option<Lines>) -> Self {
        let ropes = pace.ropes_m.len();
        let longest_m = pace.ropes_m.iter().copied().fold(0.0, f64::max);
        let fall_j = motion.body.kinetic_j() + pace.jumper_kg * GRAVITY * longest_m.max(1.0);
        let empty = || vec![Vec::new(); course.lines];
        let out = Outcome {
            watch: Watch::new(
                motion.grid.chains.len(),
                course.anchors.len(),
                course.walls.len(),
                course.forces_n.len(),
            ),
            ropes: RopeWatch::new(course.walls.len()),
            events: Vec::new(),
            caught: None,
            risen: None,
            left_zone: false,
            ending: Ending::Horizon,
            t_s: 0.0,
            end_m: motion.body.at_m,
            settled_s: None,
            at_exit: Energies::default(),
            at_end: Energies::default(),
            off_j: 0.0,
            fall_j,
            series: FullSeries {
                rope_body_tension_n: vec![Vec::new(); ropes],
                rope_ring_tension_n: vec![Vec::new(); ropes],
                line_near_tension_n: empty(),
                line_far_tension_n: empty(),
                ring_on_line_m: empty(),
                ..FullSeries::default()
            },
            quasi_static_n: vec![0.0; course.lines],
            after: None,
            failed_j: 0.0,
            sliders: Vec::new(),
            steps: 0,
        };
        let exit_m = motion.body.at_m;
        Self {
            taut: vec![false; ropes],
            failed: 0,
            still_since_s: None,
            motion,
            course,
            pace,
            quiet,
            exit_m,
            out,
        }
    }

    pub fn fly(mut self) -> Result<Outcome, SwingError> {
        let dt_s = self.pace.dt_s;
        for step in 0..=self.pace.steps {
            if step > 0 {
                self.motion.pull();
            }
            // Velocities lag places by half a step, but for the start.
            let lag_s = if step == 0 { 0.0 } else { 0.5 * dt_s };
            self.out.steps = step;
            self.fail(step as f64 * dt_s);
            let (now, ring) = self.now(step as f64 * dt_s, lag_s)?;
            let sampled = step % self.pace.sample_every == 0;
            if sampled || step % BOOK_EVERY == 0 {
                self.book(lag_s, step == 0);
                if self.out.off_j > self.pace.drift * self.out.fall_j {
                    break;
                }
            }
            if sampled {
                self.sample(&now)?;
            }
            self.out.t_s = now.t_s;
            self.out.end_m = now.body_m;
            let ended = self.look(&now, &ring);
            if ended || step == self.pace.steps {
                self.book(lag_s, false);
                break;
            }
            self.motion.advance(0.5 * dt_s + lag_s, dt_s);
        }
        self.out.sliders = self.motion.sliders;
        if self.out.at_end.total().is_finite() && self.out.off_j.is_finite() {
            Ok(self.out)
        } else {
            Err(Self::stalled(self.out.t_s))
        }
    }

    /// Breaks the parts whose time has come.
    fn fail(&mut self, t_s: f64) {
        let course = self.course;
        while let Some((at_s, loss)) = course.faults.get(self.failed)
            && *at_s <= t_s
        {
            self.failed += 1;
            if let Part::Rope { .. } = loss.part {
                // It never catches again.
                self.pace.ropes_m[loss.index] = f64::INFINITY;
                self.taut[loss.index] = false;
            }
            self.out.failed_j += self.motion.fail(loss, [course.lines, self.pace.ropes_m.len()]);
            let what = Happening::Failed { part: loss.part.clone() };
            self.out.events.push((t_s, self.motion.body.at_m, what));
            let (chains, anchors) = (self.motion.grid.chains.len(), self.motion.anchors.len());
            let fresh = || (t_s, Watch::new(chains, anchors, 0, 0));
            self.out.after.get_or_insert_with(fresh);
        }
    }

    fn stalled(t_s: f64) -> SwingError {
        SwingError::Stalled { time: print(Time::from_si(t_s)) }
    }

    /// Ring and body with velocities of the instant.
    fn now(&self, t_s: f64, lag_s: f64) -> Result<(Now, Lump), SwingError> {
        let motion = &self.motion;
        let body = motion.body.kicked(motion.on_body_n, motion.wind_m_per_s, lag_s);
        let ring = motion.ring.kicked(motion.on_ring_n, motion.wind_m_per_s, lag_s);
        // The half segments at the body take their part, Eq. (15).
        let resultant_n = size(motion.on_body_n) * self.pace.jumper_kg / body.mass_kg;
        let apart_m = size(from(body.at_m, ring.at_m));
        let sum: f64 = body.at_m.iter().chain(&ring.at_m).sum();
        if !(resultant_n + sum).is_finite() {
            return Err(Self::stalled(t_s));
        }
        let now = Now {
            t_s,
            dt_s: self.pace.dt_s,
            body_m: body.at_m,
            ring_m: ring.at_m,
            v_m_per_s: body.v_m_per_s,
            ring_speed_m_per_s: ring.speed_m_per_s(),
            apart_m,
            resultant_n,
            taut: self.pace.ropes_m.iter().any(|rest_m| apart_m >= *rest_m),
            caught: self.out.caught.is_some(),
            risen: self.out.risen.is_some(),
            left_zone: self.out.left_zone,
        };
        Ok((now, ring))
    }

    /// Takes an instant into the record; true if it ends the run.
    fn look(&mut self, now: &Now, ring: &Lump) -> bool {
        let (t_s, at) = (now.t_s, now.body_m);
        let speed = size(now.v_m_per_s);
        self.out.watch.take(&self.motion, now, &self.course.forces_n);
        if let Some((_, watch)) = &mut self.out.after {
            watch.take(&self.motion, now, &[]);
        }
        self.note_ropes(now, speed);
        if self.out.caught.is_some() && self.out.risen.is_none() && now.v_m_per_s[2] > 0.0 {
            self.out.risen = Some((t_s, at));
            self.out.events.push((t_s, at, Happening::FirstLowest));
        }
        if !self.out.left_zone && size(from(self.exit_m, at)) > self.course.zone_m {
            self.out.left_zone = true;
            self.out.events.push((t_s, at, Happening::LeftLaunchZone));
        }
        let walls = &self.course.walls;
        if !walls.is_empty()
            && let Some(wall) = self.out.watch.look(now, walls, &self.course.body)
        {
            let wall = walls[wall].name.clone();
            let speed = Speed::from_si(speed);
            self.out.events.push((t_s, at, Happening::Contact { wall, speed }));
            self.out.ending = Ending::Contact;
            return true;
        }
        let weight_n = self.pace.jumper_kg * GRAVITY;
        let still = speed.max(ring.speed_m_per_s()) <= self.course.settled_speed_m_per_s
            && (now.resultant_n - weight_n).abs() <= self.course.settled_force * weight_n;
        self.still_since_s = still.then(|| self.still_since_s.unwrap_or(t_s));
        if let Some(since_s) = self.still_since_s
            && t_s - since_s >= self.course.settled_for_s
        {
            self.out.settled_s = Some(since_s);
            self.out.ending = Ending::Settled;
            return true;
        }
        false
    }

    /// Ropes whose length the distance from ring to body passes.
    fn note_ropes(&mut self, now: &Now, speed: f64) {
        for (i, rest_m) in self.pace.ropes_m.iter().enumerate() {
            let taut = now.apart_m >= *rest_m;
            if taut == self.taut[i] {
                continue;
            }
            self.taut[i] = taut;
            let rope = self.course.rope_names[i].clone();
            let what = if taut { Happening::Taut { rope } } else { Happening::Slack { rope } };
            self.out.events.push((now.t_s, now.body_m, what));
            if self.out.caught.is_none() {
                self.out.caught = Some(Caught {
                    t_s: now.t_s,
                    drop_m: self.exit_m[2] - now.body_m[2],
                    speed_m_per_s: speed,
                });
            }
        }
    }

    fn sample(&mut self, now: &Now) -> Result<(), SwingError> {
        let series = &mut self.out.series;
        let grid = &self.motion.grid;
        series.t_s.push(now.t_s);
        series.x_m.push(now.body_m[0]);
        series.y_m.push(now.body_m[1]);
        series.z_m.push(now.body_m[2]);
        series.ring_x_m.push(now.ring_m[0]);
        series.ring_y_m.push(now.ring_m[1]);
        series.ring_z_m.push(now.ring_m[2]);
        series.resultant_n.push(now.resultant_n);
        for line in 0..self.course.lines {
            let [near, far] = [0, 1].map(|half| &grid.chains[2 * line + half]);
            series.line_near_tension_n[line].push(grid.tension_n[near.first]);
            series.line_far_tension_n[line].push(grid.tension_n[far.first]);
            let near_m = (near.segments - 1) as f64 * grid.rest_m[near.first]
                + grid.rest_m[near.last_segment()];
            series.ring_on_line_m[line].push(near_m);
        }
        let ropes = &grid.chains[2 * self.course.lines..][..self.pace.ropes_m.len()];
        for (i, chain) in ropes.iter().enumerate() {
            series.rope_ring_tension_n[i].push(grid.tension_n[chain.first]);
            series.rope_body_tension_n[i].push(grid.tension_n[chain.last_segment()]);
        }
        if let Some(quiet) = &mut self.quiet {
            for (line, most_n) in self.out.quasi_static_n.iter_mut().enumerate() {
                for end in 0..2 {
                    let found = quiet.anchor_n(now.ring_m, line, end);
                    let tension_n = found.map_err(|problem| SwingError::Lines {
                        time: print(Time::from_si(now.t_s)),
                        problem,
                    })?;
                    *most_n = most_n.max(tension_n);
                }
            }
        }
        if self.out.left_zone {
            self.out.ropes.look(grid, ropes, &self.course.walls, now.t_s);
        }
        Ok(())
    }
}
