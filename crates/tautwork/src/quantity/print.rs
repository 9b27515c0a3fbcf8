//! Quantity to text.

use super::{Quantity, Unit};

/// Prints a quantity so that [`parse`](super::parse) gives back the same bits.
///
/// Uses the larger everyday unit (kN, kJ, g/m) where that is exact, else the SI unit.
///
/// # Example
/// ```
/// use tautwork::quantity::{Words, print};
/// assert_eq!(print(22.0.kilonewtons()), "22 kN");
/// assert_eq!(print(850.0.newtons()), "850 N");
/// ```
#[must_use]
pub fn print<Q: Quantity>(q: Q) -> String {
    let (value, unit) = everyday(q);
    join(&format!("{value}"), unit)
}

/// Value and unit as [`print()`] shows them.
#[must_use]
pub fn everyday<Q: Quantity>(q: Q) -> (f64, &'static Unit) {
    let si = q.si();
    let wanted = match (Q::NAME, si.abs()) {
        ("force", 1e3..) => "kN",
        ("energy", 1e3..) => "kJ",
        ("linear density", ..1.0) => "g/m",
        _ => return (si, &Q::UNITS[0]),
    };
    let exact = Q::UNITS.iter().find(|u| u.symbol == wanted).and_then(|unit| {
        let value = si / unit.factor;
        // Only a short number is an everyday one, and only an exact one comes back unchanged.
        (value * unit.factor == si && format!("{value}").len() <= 8).then_some((value, unit))
    });
    exact.unwrap_or((si, &Q::UNITS[0]))
}

/// Prints a quantity in a given unit with a given number of decimals, for people to read.
///
/// Falls back to the exact SI form if the unit is not one of the quantity's kind.
///
/// # Example
/// ```
/// use tautwork::quantity::{Words, show};
/// assert_eq!(show(4593.0.newtons(), "kN", 2), "4.59 kN");
/// ```
#[must_use]
pub fn show<Q: Quantity>(q: Q, unit: &str, decimals: usize) -> String {
    match Q::UNITS.iter().find(|u| u.symbol == unit) {
        Some(found) => join(&format!("{:.*}", decimals, q.si() / found.factor), found),
        None => print(q),
    }
}

fn join(number: &str, unit: &Unit) -> String {
    if unit.symbol == "1" { number.to_owned() } else { format!("{number} {}", unit.symbol) }
}
