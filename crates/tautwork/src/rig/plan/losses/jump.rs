//! Losses of what holds the jumper: sides of lines, jump ropes, gear, anchors and their legs.

use super::motion::{Kind, Whole};
use super::outcome::{Left, Limits, bare};
use super::parts::Gone;
use super::seen::Motion;
use crate::anchor::{AnchorSystem, lose_at_once, system_rest};
use crate::line::solve_bundle;
use crate::quantity::{Force, GRAVITY, Length, Quantity, Ratio};
use crate::rig::RigError;
use crate::rig::plan::anchors::{Pull, net, shifted, weak_place};
use crate::rig::plan::check::{Demand, Rated};
use crate::rig::plan::flight::Site;
use crate::rig::plan::lines::{Span, down, size};
use crate::rig::plan::ratings::{self, gear_demand, rated, rated_gear};
use crate::rig::plan::result::{LossOutcome, LossResult, TakesLoad};

/// Everything that the losses of a jump share.
pub(super) struct JumpStudy<'a> {
    pub site: &'a Site<'a>,
    pub whole: Whole,
    rated: Vec<Rated<'a>>,
    /// Each anchor that has legs.
    nets: Vec<Option<AnchorSystem>>,
    /// Height of the ring with the jumper at rest, for the shift of a master point, m.
    hangs_m: f64,
    limits: Limits,
}

/// What an anchor with a leg lost does.
struct Shift {
    travel: [Length; 3],
    extension: Length,
    takes: Option<TakesLoad>,
}

impl<'a> JumpStudy<'a> {
    pub fn new(site: &'a Site<'a>, limits: Limits) -> Result<Self, RigError> {
        let rig = site.rig;
        let mut study = Self {
            site,
            whole: Whole::new(site)?,
            rated: rated(rig, site.spans)?,
            nets: rig.anchor.iter().map(|anchor| net(rig, anchor)).collect::<Result<_, _>>()?,
            hangs_m: 0.0,
            limits,
        };
        study.hangs_m = study.hangs_with(None).ok_or_else(|| {
            RigError::unsolved("the losses", &"the lines do not hold the jumper at rest")
        })?;
        Ok(study)
    }

    /// A loss in one of the three ways.
    pub fn lose(&self, gone: &Gone, kind: Kind) -> LossResult {
        let rig = self.site.rig;
        let (carries, state) = self.carried(gone, kind);
        if gone.falls(rig) {
            let mut result = bare(&state, LossOutcome::Falls, self.falls(gone));
            result.carries = (!gone.parts.is_empty()).then_some(carries);
            return result;
        }
        if carries.si() == 0.0 {
            let when = if kind == Kind::AtRest { "at rest" } else { "in the jump" };
            let verdict = format!("carries nothing {when}: its loss changes nothing");
            let mut result = bare(&state, LossOutcome::CarriesNothing, verdict);
            result.carries = Some(carries);
            return result;
        }
        let moved;
        let motion = if gone.parts.is_empty() {
            self.whole.of(kind)
        } else {
            match self.whole.without(self.site, gone, kind) {
                Ok(found) => {
                    moved = found;
                    &moved
                }
                Err(problem) => {
                    let verdict = format!("no answer: {problem}");
                    return bare(&state, LossOutcome::NoAnswer, verdict);
                }
            }
        };
        let mut result = bare(&state, LossOutcome::Held, "");
        result.carries = Some(carries);
        result.notes.clone_from(&motion.notes);
        result.slow_lines.clone_from(&motion.slow_lines);
        match self.fill(&mut result, gone, kind, motion) {
            Ok(()) => result,
            Err(error) => bare(&state, LossOutcome::NoAnswer, format!("no answer: {error}")),
        }
    }

    /// A motion of the whole rig, against what hangs at rest.
    pub fn moved(&self, state: &str, motion: &Motion) -> LossResult {
        let mut result = bare(state, LossOutcome::Held, "");
        result.notes.clone_from(&motion.notes);
        result.slow_lines.clone_from(&motion.slow_lines);
        match self.fill(&mut result, &Gone::default(), Kind::AtRest, motion) {
            Ok(()) => result,
            Err(error) => bare(state, LossOutcome::NoAnswer, format!("no answer: {error}")),
        }
    }

    fn falls(&self, gone: &Gone) -> String {
        let rig = self.site.rig;
        if gone.all || gone.ropes().len() == rig.jump.rope.len() {
            return "falls: nothing else holds the jumper".to_owned();
        }
        "falls: no line is left that holds the ring from both sides of the gap".to_owned()
    }

    /// What the lost parts and legs carry in a state.
    fn carried(&self, gone: &Gone, kind: Kind) -> (Force, String) {
        let (mut most, mut state) = self.whole.carried(self.site, gone, kind);
        for (anchor, leg) in &gone.legs {
            let system = self.pulled(*anchor, &self.whole.of(kind).pulls[*anchor].force);
            let rest = system.and_then(|system| system_rest(&system).ok());
            let tension_n = rest.map_or(0.0, |rest| rest.legs[*leg].tension.si());
            most = Force::from_si(most.si().max(tension_n));
        }
        if kind == Kind::Worst && gone.parts.is_empty() {
            "at the greatest pull on the anchor in the jump".clone_into(&mut state);
        } else if kind == Kind::Worst && !gone.legs.is_empty() {
            state.push_str("; the legs at the greatest pull on their anchor");
        }
        (most, state)
    }

    /// An anchor under a pull; none without pull or legs.
    fn pulled(&self, anchor: usize, pull: &[Force; 3]) -> Option<AnchorSystem> {
        let net = self.nets[anchor].as_ref().filter(|_| size(pull) > 0.0)?;
        Some(AnchorSystem { pull: *pull, ..net.clone() })
    }

    fn fill(
        &self,
        result: &mut LossResult,
        gone: &Gone,
        kind: Kind,
        motion: &Motion,
    ) -> Result<(), RigError> {
        let mut left = Left {
            weakest: None,
            body_force: Some(motion.body_force),
            tightest: motion.tightest.clone(),
            contact: motion.contact.clone(),
            whole_spare: self.whole.of(kind).spare_at(motion.tightest.as_ref()),
        };
        self.strengths(&mut left, gone, motion)?;
        if !gone.parts.is_empty() {
            result.takes_load = self.takes(gone, kind, motion);
            let (ring, lowest) = (self.whole.ring_m(kind), self.whole.lowest_m(kind));
            let drops = [0, 1].map(|i| motion.ring_m[i].map(|now| ring[i] - now));
            let drop = drops.into_iter().flatten().reduce(f64::max);
            result.extension = drop.map(Length::from_si);
            let lower = [0, 1].map(|i| lowest[i] - motion.lowest_m[i]);
            result.body_lower = Some(Length::from_si(lower[0].max(lower[1])));
        }
        for anchor in 0..self.nets.len() {
            let shift = self.anchor(&mut left, gone, kind, anchor, &motion.pulls[anchor])?;
            let Some(shift) = shift else { continue };
            let larger = |known: &Option<TakesLoad>, new: &TakesLoad| {
                known.as_ref().is_none_or(|k| new.peak - new.before > k.peak - k.before)
            };
            if let Some(takes) = shift.takes.filter(|new| larger(&result.takes_load, new)) {
                result.takes_load = Some(takes);
            }
            result.extension = match result.extension {
                Some(known) if known > shift.extension => Some(known),
                _ => Some(shift.extension),
            };
            let lower = self.hangs_with(Some((anchor, shift.travel)));
            let Some(lower) = lower.map(|z| (self.hangs_m - z).max(0.0)) else { continue };
            let known = result.body_lower.map_or(0.0, Quantity::si);
            result.body_lower = Some(Length::from_si(known + lower));
            if let Some((_, clearance, spare)) = &mut left.tightest {
                // The master point moves towards the pull and lowers the ring: taken off, as the page says.
                *clearance -= lower;
                *spare -= lower;
            }
        }
        left.into_result(result, self.limits);
        Ok(())
    }

    /// Lines, jump ropes and gear against what they carry.
    fn strengths(&self, left: &mut Left, gone: &Gone, motion: &Motion) -> Result<(), RigError> {
        let rig = self.site.rig;
        let required = rig.requirements.factor;
        let mut against = |rated: &Rated<'_>, demand: &Demand| -> Result<(), RigError> {
            let check = rated.against(demand, required)?;
            left.weaker(check.factor.si(), place(&check.component, &check.place));
            Ok(())
        };
        for rated in &self.rated {
            let demand = motion.ledger.get(rated.component, rated.place);
            // What is gone carries nothing.
            if demand.force_n > 0.0 {
                against(rated, &demand)?;
            }
        }
        let lost = gone.ropes();
        for gear in &rig.gear {
            let demand = gear_demand(&motion.ledger, gear);
            let on_lost_rope = lost.iter().any(|rope| rig.jump.rope[*rope].name == gear.at);
            let anchor = rig.anchor.iter().position(|anchor| anchor.name == gear.at);
            let demand = match anchor {
                Some(i) => Demand { force_n: size(&motion.pulls[i].force), from: demand.from },
                None => demand,
            };
            if demand.force_n > 0.0 && !on_lost_rope {
                against(&rated_gear(gear), &demand)?;
            }
        }
        Ok(())
    }

    /// An anchor under its greatest pull, with what it loses of its legs.
    fn anchor(
        &self,
        left: &mut Left,
        gone: &Gone,
        kind: Kind,
        anchor: usize,
        pull: &Pull,
    ) -> Result<Option<Shift>, RigError> {
        let rig = self.site.rig;
        let entry = &rig.anchor[anchor];
        let (slackens, pull) = (pull, &pull.force);
        if size(pull) == 0.0 {
            return Ok(None);
        }
        if let Some(strength) = entry.strength {
            let rated = Rated { component: &entry.name, place: "", strength, factors: Vec::new() };
            let demand = Demand { force_n: size(pull), from: String::new() };
            let check = rated.against(&demand, rig.requirements.factor)?;
            left.weaker(check.factor.si(), entry.name.clone());
            return Ok(None);
        }
        let Some(system) = self.pulled(anchor, pull) else { return Ok(None) };
        let fail = |e| RigError::unsolved(&format!("anchor {}", entry.name), &e);
        let mut weigh = |factor: Option<Ratio>, weakest: &Option<String>| {
            if let (Some(factor), Some(weakest)) = (factor, weakest) {
                left.weaker(factor.si(), place(&weak_place(&system, weakest), &entry.name));
            }
        };
        let lost = gone.legs_of(anchor);
        if lost.is_empty() {
            let rest = system_rest(&system).map_err(fail)?;
            weigh(rest.least_factor, &rest.weakest);
            return Ok(None);
        }
        let Some(bound) = lose_at_once(&system, &lost).map_err(fail)? else {
            return Err(RigError::unsolved(&entry.name, &"no path of its legs is left"));
        };
        // The lines slacken as the master point gives; with other lines lost, or from the start, the pull stays.
        let way = bound.overshoot.extension;
        let slack = (kind != Kind::Absent && gone.parts.is_empty())
            .then(|| slackens.line(self.site.spans, &entry.name, way))
            .flatten()
            .map(|line| AnchorSystem { line: Some(line), ..system.clone() })
            .and_then(|system| lose_at_once(&system, &lost).ok().flatten())
            // The secant of the lines holds for the way that it was taken over.
            .filter(|jolt| jolt.overshoot.extension.si() <= way.si() * (1.0 + 1e-9));
        let jolt = slack.as_ref().unwrap_or(&bound);
        let peaks: Vec<(&String, Force)> = if kind == Kind::Absent {
            weigh(jolt.after.least_factor, &jolt.after.weakest);
            jolt.after.legs.iter().map(|leg| (&leg.name, leg.tension)).collect()
        } else {
            weigh(jolt.overshoot.least_factor, &jolt.overshoot.weakest);
            jolt.overshoot.peaks.iter().map(|leg| (&leg.name, leg.tension)).collect()
        };
        let mut takes: Option<TakesLoad> = None;
        for (name, peak) in peaks {
            let held = jolt.before.legs.iter().find(|leg| leg.name == *name);
            let before = held.map_or(Force::from_si(0.0), |leg| leg.tension);
            let rise_n = peak.si() - before.si();
            if rise_n > takes.as_ref().map_or(0.0, |t| t.peak.si() - t.before.si()) {
                let stays = slack.as_ref().and(Some(&bound.overshoot.peaks));
                let stays = stays.and_then(|peaks| peaks.iter().find(|leg| leg.name == *name));
                takes = Some(TakesLoad {
                    component: place(name, &entry.name),
                    before,
                    peak,
                    peak_if_pull_stays: stays.map(|leg| leg.tension),
                });
            }
        }
        Ok(Some(Shift { travel: jolt.travel, extension: jolt.extension, takes }))
    }

    /// The component whose force rises most, of the kind that is lost: what hangs beside it takes over, though
    /// lines feel a rope that goes, too.
    fn takes(&self, gone: &Gone, kind: Kind, motion: &Motion) -> Option<TakesLoad> {
        let rig = self.site.rig;
        let ends =
            rig.line.iter().flat_map(|line| ratings::END.map(|end| (line.name.as_str(), end)));
        let ropes = rig.jump.rope.iter().map(|rope| (rope.name.as_str(), ratings::AT_RING));
        let (lost_ropes, lost_halves) = (gone.ropes(), gone.halves(rig));
        let stopped = !gone.stops().is_empty();
        let ends = ends.filter(|_| !lost_halves.is_empty() || stopped);
        let ropes = ropes.filter(|_| !lost_ropes.is_empty());
        let mut most: Option<TakesLoad> = None;
        for (name, at) in ends.chain(ropes) {
            let before_n = self.whole.of(kind).ledger.get(name, at).force_n;
            let peak_n = motion.ledger.get(name, at).force_n;
            if peak_n - before_n > most.as_ref().map_or(0.0, |m| m.peak.si() - m.before.si()) {
                most = Some(TakesLoad {
                    component: place(name, at),
                    before: Force::from_si(before_n),
                    peak: Force::from_si(peak_n),
                    peak_if_pull_stays: None,
                });
            }
        }
        most
    }

    /// Height of the ring with the jumper at rest and a master point moved, m.
    fn hangs_with(&self, moved: Option<(usize, [Length; 3])>) -> Option<f64> {
        let rig = self.site.rig;
        let line = |span: &Span<'_>| match &moved {
            Some((anchor, travel)) => shifted(span, &rig.anchor[*anchor].name, travel),
            None => span.bundle_line(),
        };
        let lines: Vec<_> = self.site.spans.iter().map(line).collect();
        let ropes_kg: f64 = rig
            .jump
            .rope
            .iter()
            .filter_map(|rope| {
                Some(rig.cordage.get(&rope.cordage)?.linear_density.si() * rope.rest_length.si())
            })
            .sum();
        let kg = rig.ring.mass.si() + rig.jumper.mass.si() + ropes_kg;
        solve_bundle(&lines, down(kg * GRAVITY)).ok().map(|found| found.ring[2].si())
    }
}

/// A component and a place of it.
pub(super) fn place(component: &str, at: &str) -> String {
    if at.is_empty() { component.to_owned() } else { format!("{component}, {at}") }
}
