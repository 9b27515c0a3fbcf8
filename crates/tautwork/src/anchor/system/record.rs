//! What is kept of the motion after a loss.

use nalgebra::{DVector, Vector3};

use super::super::AnchorError;
use super::super::knots::place;
use super::dynamic::{BreakEvent, LegPeakInTime, SystemBroken};
use super::input::AnchorSystem;
use super::model::Model;
use super::motion::Motion;
use crate::quantity::{Quantity, Ratio};

/// What is kept of the motion.
pub(super) struct Record {
    pub(super) from: Vector3<f64>,
    along: Vector3<f64>,
    pub(super) since_s: f64,
    pub(super) events: Vec<BreakEvent>,
    peaks_n: Vec<(f64, f64)>,
    strengths_n: Vec<Option<f64>>,
    extension_m: f64,
    speed: f64,
    drift_j: f64,
    motion_j: f64,
    t_s: Vec<f64>,
    way_m: Vec<f64>,
    worst_n: Vec<f64>,
}

impl Record {
    pub(super) fn new(model: &Model, x: &DVector<f64>) -> Self {
        let tensions = model.tensions_n(&model.whole(), x);
        Self {
            from: place(x, model.pulled),
            along: model.pull_n / model.pull_n.norm(),
            since_s: 0.0,
            events: Vec::new(),
            peaks_n: tensions.into_iter().map(|t| (t, 0.0)).collect(),
            strengths_n: model.legs.iter().map(|l| l.strength.map(|(s, _)| s)).collect(),
            extension_m: 0.0,
            speed: 0.0,
            drift_j: 0.0,
            motion_j: 0.0,
            t_s: Vec::new(),
            way_m: Vec::new(),
            worst_n: Vec::new(),
        }
    }

    /// Energy at the start of a run, J.
    pub(super) fn start(
        &mut self,
        motion: &mut Motion<'_>,
        state: &[f64],
    ) -> Result<f64, AnchorError> {
        let p = Vector3::new(state[0], state[1], state[2]);
        motion.settle(&p)?;
        let v = Vector3::new(state[3], state[4], state[5]);
        let way = p - self.from;
        let energy_j = 0.5 * motion.mass_kg * v.norm_squared() + motion.legs().1;
        Ok(energy_j - motion.model.steady_n().dot(&way))
    }

    pub(super) fn add(
        &mut self,
        motion: &mut Motion<'_>,
        after_s: f64,
        state: &[f64],
        start_j: f64,
    ) -> Result<(), AnchorError> {
        let energy_j = self.start(motion, state)?;
        let v = Vector3::new(state[3], state[4], state[5]);
        self.drift_j = self.drift_j.max((energy_j - start_j).abs());
        self.motion_j = self.motion_j.max(0.5 * motion.mass_kg * v.norm_squared());
        self.speed = self.speed.max(v.norm());
        let way_m = (Vector3::new(state[0], state[1], state[2]) - self.from).dot(&self.along);
        self.extension_m = self.extension_m.max(way_m);
        let t_s = self.since_s + after_s;
        let mut worst_n = 0.0_f64;
        for (i, link) in motion.which.iter().zip(&motion.links) {
            let tension_n = link.tension_n(&motion.x);
            worst_n = worst_n.max(tension_n);
            if tension_n > self.peaks_n[*i].0 {
                self.peaks_n[*i] = (tension_n, t_s);
            }
        }
        self.t_s.push(t_s);
        self.way_m.push(way_m);
        self.worst_n.push(worst_n);
        Ok(())
    }

    pub(super) fn told(
        self,
        system: &AnchorSystem,
        held: bool,
    ) -> Result<SystemBroken, AnchorError> {
        let mut peaks = Vec::new();
        for ((leg, (peak_n, at_s)), strength) in
            system.legs.iter().zip(self.peaks_n).zip(self.strengths_n)
        {
            let factor = strength.map(|s| s / peak_n).filter(|f| f.is_finite());
            peaks.push(LegPeakInTime {
                name: leg.name.clone(),
                tension: AnchorError::finite("peak", peak_n)?,
                at: AnchorError::finite("time", at_s)?,
                factor: factor.map(Ratio::from_si),
            });
        }
        let drift = if self.motion_j > 0.0 { self.drift_j / self.motion_j } else { 0.0 };
        Ok(SystemBroken {
            events: self.events,
            held,
            peaks,
            extension: AnchorError::finite("extension", self.extension_m)?,
            speed: AnchorError::finite("speed", self.speed)?,
            energy_drift: drift,
            t_s: self.t_s,
            way_m: self.way_m,
            worst_tension_n: self.worst_n,
        })
    }
}
