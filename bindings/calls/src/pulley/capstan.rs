//! Rope around what does not turn.

use tautwork::pulley::RopeOverEdges;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(pulley::capstan_ratio(mu, wrap) => Text),
    call!(pulley::capstan_hold(load, mu, wrap)),
    call!(pulley::over_edges { &RopeOverEdges }),
    call!(pulley::implied_mu(ratio, wrap) => Text),
];
