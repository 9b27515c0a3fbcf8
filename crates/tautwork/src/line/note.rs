//! Remarks that a result carries when an input leaves what the model was made for.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Quantity, Ratio, Text};

/// A remark on a result.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LineNote {
    /// The tension is past the last point of the stretch table: the curve goes on straight.
    PastStretchTable {
        /// Greatest tension met.
        #[serde(with = "Text::<Force>")]
        tension: Force,
        /// Last tension of the table.
        #[serde(with = "Text::<Force>")]
        last_point: Force,
    },
    /// The sag is above an eighth of the chord: the theory of shallow cables no longer holds.
    DeepSag {
        /// Sag over chord.
        #[serde(with = "Text::<Ratio>")]
        sag_ratio: Ratio,
    },
}

impl LineNote {
    pub(crate) fn past_table(law: &crate::material::Law, tension_n: f64) -> Option<Self> {
        (tension_n > law.last_n()).then(|| Self::PastStretchTable {
            tension: Force::from_si(tension_n),
            last_point: Force::from_si(law.last_n()),
        })
    }

    pub(crate) fn deep(sag_ratio: f64) -> Option<Self> {
        (sag_ratio > 0.125).then(|| Self::DeepSag { sag_ratio: Ratio::from_si(sag_ratio) })
    }
}
