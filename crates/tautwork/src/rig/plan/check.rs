//! Demand against rating, and results against the rigger's limits.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::material::{BreakingStrength, DeratedStrength, Derating, DeratingKind, derated};
use crate::quantity::{Force, Length, Quantity, Ratio, Text};
use crate::rig::{FactorEntry, Place, RigError};

/// A reduction of strength that was applied.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AppliedFactor {
    /// What reduces the strength.
    pub name: String,
    /// Lower factor.
    #[serde(with = "Text::<Ratio>")]
    pub low: Ratio,
    /// Upper factor.
    #[serde(with = "Text::<Ratio>")]
    pub high: Ratio,
    /// Where the value comes from, as the document says.
    pub source: String,
}

/// Strength of one component at one place against the greatest demand there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StrengthCheck {
    /// Component.
    pub component: String,
    /// Place along it.
    pub place: String,
    /// Greatest force there.
    #[serde(with = "Text::<Force>")]
    pub demand: Force,
    /// Which part of the plan gave the demand.
    pub from: String,
    /// Strength before reductions.
    #[serde(with = "Text::<Force>")]
    pub strength: Force,
    /// Reductions applied.
    pub factors: Vec<AppliedFactor>,
    /// Strength left with the lower factors.
    #[serde(with = "Text::<Force>")]
    pub derated: Force,
    /// Strength left with the upper factors.
    #[serde(with = "Text::<Force>")]
    pub derated_high: Force,
    /// Derated strength over demand, with the lower factors.
    #[serde(with = "Text::<Ratio>")]
    pub factor: Ratio,
    /// Factor the rigger requires.
    #[serde(with = "Text::<Ratio>")]
    pub required: Ratio,
    /// Strength missing to reach the required factor; zero if reached.
    #[serde(with = "Text::<Force>")]
    pub shortfall: Force,
    /// Whether the required factor is missed.
    pub falls_short: bool,
}

/// A force against a limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ForceCheck {
    /// What the force is.
    pub what: String,
    /// The force.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// The rigger's limit.
    #[serde(with = "Text::<Force>")]
    pub limit: Force,
    /// Force above the limit; zero if within.
    #[serde(with = "Text::<Force>")]
    pub excess: Force,
    /// Which part of the plan gave the force.
    pub from: String,
    /// Whether the limit is passed.
    pub falls_short: bool,
}

/// A distance against a limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClearanceCheck {
    /// Distance from what.
    pub what: String,
    /// Distance from the surface of the body, the survey error taken off.
    #[serde(with = "Text::<Length>")]
    pub clearance: Length,
    /// The rigger's limit.
    #[serde(with = "Text::<Length>")]
    pub required: Length,
    /// Distance missing; zero if enough.
    #[serde(with = "Text::<Length>")]
    pub shortfall: Length,
    /// Which part of the plan gave the distance.
    pub from: String,
    /// Whether the limit is missed.
    pub falls_short: bool,
}

/// All checks of a plan.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Checks {
    /// Strength against demand, in the order of the document.
    pub strength: Vec<StrengthCheck>,
    /// Forces on the body.
    pub force: Vec<ForceCheck>,
    /// Clearances.
    pub clearance: Vec<ClearanceCheck>,
    /// What holds or does not hold without a number.
    pub other: Vec<OtherCheck>,
}

/// Something that holds or does not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OtherCheck {
    /// What is asked.
    pub what: String,
    /// The answer in words.
    pub answer: String,
    /// Whether it does not hold.
    pub falls_short: bool,
}

impl Checks {
    /// How many checks fall short.
    pub fn short(&self) -> usize {
        self.strength.iter().filter(|c| c.falls_short).count()
            + self.force.iter().filter(|c| c.falls_short).count()
            + self.clearance.iter().filter(|c| c.falls_short).count()
            + self.other.iter().filter(|c| c.falls_short).count()
    }
}

/// A component that carries force: its strength and what reduces it.
#[derive(Debug, Clone)]
pub(super) struct Rated<'a> {
    pub component: &'a str,
    pub place: &'a str,
    pub strength: Force,
    pub factors: Vec<&'a FactorEntry>,
}

/// The factors that act at a place: those given for it and those given for everywhere.
pub(super) fn factors_at(factors: &[FactorEntry], place: Place) -> Vec<&FactorEntry> {
    let acts = |f: &&FactorEntry| f.at.is_none_or(|at| at == place || at == Place::All);
    factors.iter().filter(acts).collect()
}

impl Rated<'_> {
    /// Strength left with the lower and the upper factors.
    pub fn left(&self) -> Result<DeratedStrength, RigError> {
        derated(BreakingStrength(self.strength), &self.deratings(), &[])
            .map_err(|e| RigError::unsolved("strength", &e))
    }

    fn deratings(&self) -> Vec<Derating> {
        self.factors.iter().map(|f| derating(f)).collect()
    }

    pub fn against(&self, demand: &Demand, required: Ratio) -> Result<StrengthCheck, RigError> {
        let left = self.left()?;
        let demand_n = demand.force_n.max(f64::MIN_POSITIVE);
        let missing = required.si() * demand.force_n - left.low.si();
        Ok(StrengthCheck {
            component: self.component.to_owned(),
            place: self.place.to_owned(),
            demand: Force::from_si(demand.force_n),
            from: demand.from.clone(),
            strength: self.strength,
            factors: self
                .deratings()
                .into_iter()
                .map(|d| AppliedFactor { name: d.name, low: d.low, high: d.high, source: d.source })
                .collect(),
            derated: left.low,
            derated_high: left.high,
            // A component without load has a factor beyond any requirement, but a finite one.
            factor: Ratio::from_si((left.low.si() / demand_n).min(1e6)),
            required,
            shortfall: Force::from_si(missing.max(0.0)),
            falls_short: missing > 0.0,
        })
    }
}

fn derating(entry: &FactorEntry) -> Derating {
    Derating {
        kind: DeratingKind::Other,
        name: entry.name.clone(),
        low: entry.factor.low,
        high: entry.factor.high,
        source: entry.source.clone().unwrap_or_else(|| "not given".to_owned()),
    }
}

pub(super) fn force_check(what: &str, force: Force, limit: Force, from: &str) -> ForceCheck {
    let excess = force.si() - limit.si();
    ForceCheck {
        what: what.to_owned(),
        force,
        limit,
        excess: Force::from_si(excess.max(0.0)),
        from: from.to_owned(),
        falls_short: excess > 0.0,
    }
}

pub(super) fn clearance_check(
    what: &str,
    clearance: Length,
    required: Length,
    from: &str,
) -> ClearanceCheck {
    let missing = required.si() - clearance.si();
    ClearanceCheck {
        what: what.to_owned(),
        clearance,
        required,
        shortfall: Length::from_si(missing.max(0.0)),
        from: from.to_owned(),
        falls_short: missing > 0.0,
    }
}

/// The greatest force somewhere, and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Demand {
    pub force_n: f64,
    pub from: String,
}

/// Greatest force so far for each component and place.
#[derive(Debug, Default)]
pub(super) struct Ledger(BTreeMap<(String, String), Demand>);

impl Ledger {
    pub fn put(&mut self, component: &str, place: &str, force_n: f64, from: &str) {
        let key = (component.to_owned(), place.to_owned());
        let entry =
            self.0.entry(key).or_insert(Demand { force_n: 0.0, from: "no load".to_owned() });
        if force_n > entry.force_n {
            *entry = Demand { force_n, from: from.to_owned() };
        }
    }

    pub fn get(&self, component: &str, place: &str) -> Demand {
        let key = (component.to_owned(), place.to_owned());
        self.0.get(&key).cloned().unwrap_or(Demand { force_n: 0.0, from: "no load".to_owned() })
    }

    /// The greatest force at a component over all its places.
    pub fn greatest(&self, component: &str) -> Demand {
        let places = self.0.iter().filter(|((name, _), _)| name == component);
        let greatest =
            places.map(|(_, demand)| demand).max_by(|a, b| a.force_n.total_cmp(&b.force_n));
        greatest.cloned().unwrap_or(Demand { force_n: 0.0, from: "no load".to_owned() })
    }
}
