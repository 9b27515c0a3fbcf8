//! A quantity whose kind is known at run time only: what the bindings hand to their users.

use std::cmp::Ordering;
use std::fmt;

use tautwork::quantity::{Kind, QuantityError, Unit, parse_any, unit_kind};

use crate::Failure;

/// A finite number in a known unit.
#[derive(Debug, Clone, Copy)]
pub struct Amount {
    value: f64,
    unit: &'static Unit,
    kind: &'static Kind,
}

impl Amount {
    /// Reads a quantity of any kind, such as `"22 kN"`.
    ///
    /// # Errors
    /// [`QuantityError`] if the text has no number or an unknown unit.
    pub fn read(text: &str) -> Result<Self, QuantityError> {
        let (value, kind, unit) = parse_any(text)?;
        Ok(Self { value, unit, kind })
    }

    /// This many of a unit.
    ///
    /// # Errors
    /// As [`Amount::read`].
    pub fn new(value: f64, unit: &str) -> Result<Self, QuantityError> {
        Self::read(&if unit == "1" { value.to_string() } else { format!("{value} {unit}") })
    }

    /// The number, in its own unit.
    pub fn value(&self) -> f64 {
        self.value
    }

    /// The symbol of the unit; `"1"` for a plain ratio.
    pub fn unit(&self) -> &'static str {
        self.unit.symbol
    }

    /// The kind of quantity, such as `force`.
    pub fn kind(&self) -> &'static str {
        self.kind.name
    }

    /// The value in the SI unit.
    pub fn si(&self) -> f64 {
        // Zero has one sign, so that equal amounts have equal bits.
        self.value * self.unit.factor + 0.0
    }

    /// The value in another unit of the same kind.
    ///
    /// # Errors
    /// A [`Failure`] of units if the unit is unknown or of another kind.
    pub fn to(&self, unit: &str) -> Result<f64, Failure> {
        match unit_kind(unit) {
            Some((kind, found)) if kind == self.kind => {
                let same = found.symbol == self.unit.symbol;
                Ok(if same { self.value } else { self.si() / found.factor })
            }
            _ => {
                let known: Vec<_> = self.kind.units.iter().map(|u| u.symbol).collect();
                let message = format!(
                    "\"{unit}\" is not a unit of {}; use one of {}",
                    self.kind.name,
                    known.join(", ")
                );
                Err(Failure::new(crate::Kind::UnitError, &message))
            }
        }
    }

    /// Text in a unit with a number of decimals, for people to read.
    ///
    /// # Errors
    /// As [`Amount::to`].
    pub fn show(&self, unit: &str, decimals: usize) -> Result<String, Failure> {
        let number = format!("{:.*}", decimals.min(17), self.to(unit)?);
        Ok(if unit == "1" { number } else { format!("{number} {unit}") })
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.value)?;
        if self.unit.symbol == "1" { Ok(()) } else { write!(f, " {}", self.unit.symbol) }
    }
}

impl PartialEq for Amount {
    fn eq(&self, other: &Self) -> bool {
        self.partial_cmp(other) == Some(Ordering::Equal)
    }
}

impl PartialOrd for Amount {
    /// By SI value; amounts of different kinds have no order.
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        if self.kind == other.kind { self.si().partial_cmp(&other.si()) } else { None }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keeps_the_unit_as_written_and_compares_in_si() {
        let force = Amount::read("22 kN").unwrap();
        assert_eq!((force.value(), force.unit(), force.kind()), (22.0, "kN", "force"));
        assert_eq!(force, Amount::new(22_000.0, "N").unwrap());
        assert_eq!(force.to("N").unwrap(), 22_000.0);
        assert_eq!(force.show("kN", 1).unwrap(), "22.0 kN");
        assert_eq!(Amount::read("0.9").unwrap().to_string(), "0.9");
        assert_eq!(Amount::new(0.1, "1").unwrap().to("%").unwrap(), 10.0);
    }

    #[test]
    fn kinds_do_not_mix() {
        let force = Amount::read("22 kN").unwrap();
        let length = Amount::read("22 m").unwrap();
        assert_eq!(force.partial_cmp(&length), None);
        assert!(force.to("m").unwrap_err().message.contains("not a unit of force"));
        for text in ["22 bananas", "kN", "NaN kN", "1e308 kN", ""] {
            assert!(Amount::read(text).is_err(), "{text}");
        }
    }
}
