//! Rope around surfaces that do not turn: the theory is on the page of this folder, joined to that of `pulley`.

mod hold;

pub use hold::{Interval, capstan_hold, capstan_ratio, implied_mu};
