//! Losses of what brings the jumper back: the haul rope, legs and guys of the frame.

use super::jump::{JumpStudy, place};
use super::motion::{Kind, let_go};
use super::outcome::{Left, Limits, bare};
use super::parts::{Gone, member_name};
use crate::anchor::{
    AfterLoss, Frame, FrameForces, FrameLift, FrameNote, LiftPlace, frame_lift, frame_without,
    lose_members,
};
use crate::quantity::{Force, Length, Quantity, Ratio, show};
use crate::rig::Rig;
use crate::rig::plan::frame::{HAUL, buckles_at, model};
use crate::rig::plan::lines::size;
use crate::rig::plan::result::{HaulPlan, HaulStep, LossOutcome, LossResult, TakesLoad};

/// Everything that the losses of a haul share.
pub(super) struct HaulStudy<'a> {
    rig: &'a Rig,
    haul: &'a HaulPlan,
    /// The frame while the rope is drawn in, and over the whole way; none without a frame, or one that does not
    /// stand by itself.
    frame: Option<(Frame, FrameLift)>,
    places: Vec<LiftPlace>,
    limits: Limits,
}

impl<'a> HaulStudy<'a> {
    pub fn new(rig: &'a Rig, haul: &'a HaulPlan, limits: Limits) -> Self {
        let places: Vec<_> =
            haul.steps.iter().map(|s| LiftPlace { load: s.body, tension: s.pull }).collect();
        let behind = haul.pull_behind_pulley.si() / haul.pull.si().max(1e-9);
        let frame = rig.frame.as_ref().zip(rig.haul.as_ref());
        let frame = frame.map(|(frame, entry)| model(frame, entry, behind));
        let frame = frame.and_then(|frame| {
            let lift = frame_lift(&frame, HAUL, &places).ok()?;
            Some((frame, lift))
        });
        Self { rig, haul, frame, places, limits }
    }

    pub fn lose(&self, jump: &JumpStudy<'_>, gone: &Gone, kind: Kind) -> LossResult {
        if gone.haul_rope { self.haul_rope(jump, kind) } else { self.members(gone, kind) }
    }

    /// The place at which the haul rope carries most: in the order of the way, the first.
    fn hardest(&self) -> Option<&HaulStep> {
        self.haul.steps.iter().rev().max_by(|a, b| a.pull.si().total_cmp(&b.pull.si()))
    }

    fn haul_rope(&self, jump: &JumpStudy<'_>, kind: Kind) -> LossResult {
        if kind == Kind::Absent {
            let mut result = jump.moved("before the haul", &jump.whole.rest);
            result.carries = Some(self.haul.pull);
            result.verdict =
                format!("{}; nothing brings the jumper back from the jump ropes", result.verdict);
            return result;
        }
        let (step, words) = match kind {
            Kind::AtRest => (self.haul.steps.last(), "held still at the end of the haul"),
            _ => (self.hardest(), "at the greatest pull on the way"),
        };
        let Some(step) = step else {
            return bare("", LossOutcome::NoAnswer, "no answer: the haul has no way");
        };
        let state = format!("{words}, {} of haul rope out", show(step.rope_out, "m", 1));
        match let_go(jump.site, step.body, step.ring) {
            Ok(motion) => {
                let mut result = jump.moved(&state, &motion);
                result.carries = Some(step.pull);
                result.takes_load = Some(TakesLoad {
                    component: "jump ropes, together".to_owned(),
                    before: step.jump_ropes,
                    peak: Force::from_si(motion.ledger.get("ring", "").force_n),
                    peak_if_pull_stays: None,
                });
                let lowest = motion.lowest_m[0].min(motion.lowest_m[1]);
                result.body_lower = Some(Length::from_si(step.body[2].si() - lowest));
                result
            }
            Err(problem) => bare(&state, LossOutcome::NoAnswer, format!("no answer: {problem}")),
        }
    }

    fn members(&self, gone: &Gone, kind: Kind) -> LossResult {
        let lost: Vec<&str> = gone.members.iter().map(|m| member_name(self.rig, *m)).collect();
        let Some((frame, lift)) = &self.frame else {
            return bare(
                "",
                LossOutcome::NoAnswer,
                "no answer: the frame has none with all its members",
            );
        };
        if kind == Kind::Absent {
            return self.absent(frame, lift, &lost);
        }
        let worst = lift.legs.iter().chain(&lift.guys).filter(|m| lost.contains(&m.name.as_str()));
        let worst = worst.max_by(|a, b| a.force.si().total_cmp(&b.force.si()));
        let (at, words, behind) = match kind {
            Kind::AtRest => {
                (self.places.len().saturating_sub(1), "held still at the end of the haul", 1.0)
            }
            _ => (
                worst.map_or(0, |w| w.at),
                "drawn in at the greatest force on the part",
                frame.pulleys.first().map_or(1.0, |p| p.behind.si()),
            ),
        };
        let Some(step) = self.haul.steps.get(at) else {
            return bare("", LossOutcome::NoAnswer, "no answer: the haul has no way");
        };
        let state = format!("{words}, {} of haul rope out", show(step.rope_out, "m", 1));
        let mut here = frame.clone();
        for pulley in &mut here.pulleys {
            (pulley.load, pulley.tension) = (step.body, step.pull);
            pulley.behind = Ratio::from_si(behind);
        }
        let loss = match lose_members(&here, &lost) {
            Ok(loss) => loss,
            Err(error) => {
                return bare(&state, LossOutcome::NoAnswer, format!("no answer: {error}"));
            }
        };
        let carries = carried(&loss.before, &lost);
        let mut result = match &loss.after {
            _ if carries.si() == 0.0 => {
                let verdict = "carries nothing there: its loss changes nothing";
                bare(&state, LossOutcome::CarriesNothing, verdict)
            }
            AfterLoss::Falls(_) => {
                let verdict =
                    "falls: the frame no longer stands, and the haul rope drops to the edge";
                bare(&state, LossOutcome::Falls, verdict)
            }
            AfterLoss::Stands(after) => {
                let mut result = bare(&state, LossOutcome::Held, "");
                result.extension = Some(Length::from_si(size(&after.travel)));
                let peaks: Vec<_> =
                    after.peaks.iter().map(|p| (p.name.as_str(), p.force)).collect();
                self.held(&mut result, frame, &peaks, |name| carried(&loss.before, &[name]));
                if !after.rest.notes.is_empty() {
                    result.notes.extend(after.rest.notes.iter().map(|note| note_words(*note)));
                }
                result
            }
        };
        result.carries = Some(carries);
        result
    }

    /// The whole haul without members of the frame.
    fn absent(&self, frame: &Frame, lift: &FrameLift, lost: &[&str]) -> LossResult {
        let state = "before the haul";
        let force = |lift: &FrameLift, name: &str| {
            let found = lift.legs.iter().chain(&lift.guys).find(|m| m.name == name);
            found.map_or(Force::from_si(0.0), |m| m.force)
        };
        let carries = lost.iter().map(|name| force(lift, name).si()).fold(0.0, f64::max);
        let carries = Force::from_si(carries);
        let left = frame_without(frame, lost);
        let mut result = if carries.si() == 0.0 {
            let verdict = "carries nothing on the way: its loss changes nothing";
            bare(state, LossOutcome::CarriesNothing, verdict)
        } else if left.legs.is_empty() {
            bare(state, LossOutcome::Falls, "falls: the frame has no leg")
        } else {
            match frame_lift(&left, HAUL, &self.places) {
                Err(error) => bare(state, LossOutcome::NoAnswer, format!("no answer: {error}")),
                Ok(found) => {
                    if let Some(step) = found.falls_at.and_then(|at| self.haul.steps.get(at)) {
                        let out = show(step.rope_out, "m", 1);
                        let verdict =
                            format!("falls: with {out} of haul rope out the frame does not stand");
                        bare(state, LossOutcome::Falls, verdict)
                    } else {
                        let mut result = bare(state, LossOutcome::Held, "");
                        let peaks = found.legs.iter().chain(&found.guys);
                        let peaks: Vec<_> = peaks.map(|m| (m.name.as_str(), m.force)).collect();
                        self.held(&mut result, frame, &peaks, |name| force(lift, name));
                        result
                    }
                }
            }
        };
        result.carries = Some(carries);
        result
    }

    /// Members that are left against their strength, and the one whose force rises most.
    fn held(
        &self,
        result: &mut LossResult,
        frame: &Frame,
        peaks: &[(&str, Force)],
        before: impl Fn(&str) -> Force,
    ) {
        let mut left = Left::default();
        for (name, peak) in peaks {
            let entries = self.rig.frame.iter().flat_map(|f| f.leg.iter().chain(&f.guy));
            let Some(entry) = entries.into_iter().find(|m| m.name == *name) else { continue };
            let leg = frame.legs.iter().find(|leg| leg.name == *name);
            let pole = leg.and_then(|leg| buckles_at(frame, leg));
            let strength = pole.map_or(entry.strength, |pole| {
                if pole < entry.strength { pole } else { entry.strength }
            });
            if peak.si() > 0.0 {
                left.weaker((strength.si() / peak.si()).min(1e6), place(name, "frame"));
            }
            let held = before(name);
            let rise = |t: &TakesLoad| t.peak.si() - t.before.si();
            if peak.si() - held.si() > result.takes_load.as_ref().map_or(0.0, rise) {
                result.takes_load = Some(TakesLoad {
                    component: place(name, "frame"),
                    before: held,
                    peak: *peak,
                    peak_if_pull_stays: None,
                });
            }
        }
        left.into_result(result, self.limits);
    }
}

/// What members carry, the greatest of them.
fn carried(forces: &FrameForces, names: &[&str]) -> Force {
    let members = forces.legs.iter().chain(&forces.guys);
    let named = members.filter(|m| names.contains(&m.name.as_str()) && !m.idle);
    Force::from_si(named.map(|m| m.force.si()).fold(0.0, f64::max))
}

fn note_words(note: FrameNote) -> String {
    match note {
        FrameNote::Balanced => "the frame is balanced, not held, in some direction",
        FrameNote::LegLifts => "the foot of a leg lifts",
        FrameNote::GuySlack => "a guy goes slack",
        FrameNote::LargeDisplacement => {
            "the head moves so far that the figures are sizes, not digits"
        }
    }
    .to_owned()
}
