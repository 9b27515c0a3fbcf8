//! Slack rope that falls beside the body and comes to rest at the ring's side of its fold.

use serde::{Deserialize, Serialize};

use super::rope::Rope;

/// What the fold of slack rope does while the body falls below the ring, Eq. (18).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fold {
    /// Nothing: half of the rope falls with the body, and the bound of Eq. (13) and (14) is given.
    #[default]
    Neglected,
    /// No energy is lost at the fold: the rope pulls the body down, and it falls faster than g.
    Conservative,
    /// Each piece of rope is stopped by an inelastic jerk at the fold: nothing pulls the body, all of
    /// the jerk goes to the ring.
    Dissipative,
}

/// Downward pulls of all folds, and the mass of rope that falls beside the body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct FoldPull {
    pub body_n: f64,
    pub ring_n: f64,
    pub beside_kg: f64,
}

impl Fold {
    /// For ropes, and height and speed of the body's fall below the ring. None while it rises, is above the
    /// ring, or no rope is slack.
    pub(super) fn pulls_n(
        self,
        ropes: &[Rope],
        fallen_m: f64,
        speed_m_per_s: f64,
    ) -> Option<FoldPull> {
        if fallen_m <= 0.0 || speed_m_per_s <= 0.0 {
            return None;
        }
        let (mut flux_n, mut beside_kg) = (0.0, 0.0);
        for rope in ropes {
            if !rope.lost && !rope.taut {
                let density = rope.mass_kg / rope.rest_m;
                // Rope passes the fold at half the speed and loses all of it.
                flux_n += 0.5 * density * speed_m_per_s * speed_m_per_s;
                beside_kg += 0.5 * density * (rope.rest_m - fallen_m).max(0.0);
            }
        }
        let (body_n, ring_n) = match self {
            Self::Neglected => (0.0, 0.0),
            Self::Conservative => (0.5 * flux_n, 0.5 * flux_n),
            Self::Dissipative => (0.0, flux_n),
        };
        (flux_n > 0.0).then_some(FoldPull { body_n, ring_n, beside_kg })
    }
}
