//! Published knot factors, as ranges with their sources.

use super::strength::{Derating, DeratingKind};
use crate::quantity::{Quantity, Ratio};

const TABLE: &str = "rescue training table without stated method";
const HSE: &str = "HSE contract research report 364 (2001), from memory";

/// Name, least and greatest fraction of the strength left, sources.
const KNOTS: &[(&str, f64, f64, &[&str])] = &[
    ("figure-eight loop", 0.66, 0.80, &[HSE, TABLE]),
    ("figure-nine loop", 0.68, 0.84, &[HSE]),
    ("bowline", 0.55, 0.74, &[HSE, TABLE]),
    ("alpine butterfly", 0.61, 0.75, &[HSE, TABLE]),
    ("overhand loop", 0.58, 0.68, &[HSE]),
    ("barrel knot", 0.67, 0.77, &[HSE]),
    ("double fisherman's bend", 0.68, 0.68, &[TABLE]),
    ("water knot in webbing", 0.64, 0.64, &[TABLE]),
    ("round turn and two half hitches", 0.75, 0.75, &[TABLE]),
    ("tensionless hitch", 1.0, 1.0, &[TABLE]),
];

/// Knot factors as [`Derating`]s.
///
/// Each range spans the sources named in it. They are for comparison; test your own knots in your own
/// cordage. A single published figure appears as a range of no width, which is no sign of certainty.
///
/// # Example
/// ```
/// use tautwork::{material::knot_factors, quantity::ReadRatio};
/// let eight = &knot_factors()[0];
/// assert_eq!(eight.name, "figure-eight loop");
/// assert_eq!((eight.low.in_percent(), eight.high.in_percent()), (66.0, 80.0));
/// assert!(!knot_factors().iter().any(|k| k.name == "granny"));
/// ```
pub fn knot_factors() -> Vec<Derating> {
    KNOTS
        .iter()
        .map(|(name, low, high, sources)| Derating {
            kind: DeratingKind::Knot,
            name: (*name).to_owned(),
            low: Ratio::from_si(*low),
            high: Ratio::from_si(*high),
            source: sources.join("; "),
        })
        .collect()
}
