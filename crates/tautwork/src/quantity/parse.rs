//! Text to quantity.

use super::kinds::KINDS;
use super::{Kind, Quantity, QuantityError, Unit};

/// Reads a quantity: a number, then a unit of its kind, with or without a space between.
///
/// A [`Ratio`](super::Ratio) may also stand as a plain number, since one is its SI unit.
///
/// # Errors
/// [`QuantityError`] says what is wrong and shows what would be right.
///
/// # Example
/// ```
/// use tautwork::quantity::{Force, Length, ReadForce, parse};
/// assert_eq!(parse::<Force>("22 kN")?.in_newtons(), 22_000.0);
/// let wrong = parse::<Length>("22 kN").unwrap_err();
/// assert_eq!(wrong.to_string(), "\"22 kN\" is a force, not a length; write a length such as \"64 m\"");
/// # Ok::<(), tautwork::quantity::QuantityError>(())
/// ```
pub fn parse<Q: Quantity>(text: &str) -> Result<Q, QuantityError> {
    let kind = Kind { name: Q::NAME, units: Q::UNITS, example: Q::EXAMPLE };
    parse_as(text, &kind).map(Q::from_si)
}

/// Reads a quantity of a kind chosen at run time; the result is the SI value.
///
/// # Errors
/// As [`parse`].
pub fn parse_as(text: &str, kind: &Kind) -> Result<f64, QuantityError> {
    let (value, unit) = split(text, kind)?;
    let si = if unit.is_empty() {
        if kind.units[0].symbol != "1" {
            return Err(QuantityError::NoUnit {
                text: text.to_owned(),
                kind: kind.name,
                example: kind.example,
            });
        }
        value
    } else {
        let found = find(kind.units, &unit).ok_or_else(|| unknown(text, &unit, kind))?;
        value * found.factor
    };
    if si.is_finite() { Ok(si) } else { Err(not_finite(text, kind)) }
}

/// The kind a unit belongs to, with the unit.
#[must_use]
pub fn unit_kind(symbol: &str) -> Option<(&'static Kind, &'static Unit)> {
    let symbol = tidy(symbol);
    KINDS.iter().find_map(|kind| find(kind.units, &symbol).map(|unit| (kind, unit)))
}

/// Reads a quantity of any kind: the number, its kind, and the unit it is written in. A plain number
/// is a ratio.
///
/// # Errors
/// As [`parse`].
///
/// # Example
/// ```
/// use tautwork::quantity::parse_any;
/// let (value, kind, unit) = parse_any("22 kN")?;
/// assert_eq!((value, kind.name, unit.symbol), (22.0, "force", "kN"));
/// assert!(parse_any("22 bananas").is_err());
/// # Ok::<(), tautwork::quantity::QuantityError>(())
/// ```
pub fn parse_any(text: &str) -> Result<(f64, &'static Kind, &'static Unit), QuantityError> {
    let any = Kind { name: "quantity", units: &[], example: "22 kN" };
    let (value, unit) = split(text, &any)?;
    let symbol = if unit.is_empty() { "1" } else { unit.as_str() };
    let (kind, found) = unit_kind(symbol).ok_or_else(|| QuantityError::UnknownUnit {
        unit,
        kind: any.name,
        hint: String::new(),
        known: KINDS.iter().map(|kind| kind.units[0].symbol).collect::<Vec<_>>().join(", "),
    })?;
    if (value * found.factor).is_finite() {
        Ok((value, kind, found))
    } else {
        Err(not_finite(text, &any))
    }
}

fn find(units: &'static [Unit], symbol: &str) -> Option<&'static Unit> {
    units.iter().find(|u| u.symbol == symbol || u.aliases.contains(&symbol))
}

/// Number and unit of a text, the unit with its blanks removed around `/`, `·` and `*`.
fn split(text: &str, kind: &Kind) -> Result<(f64, String), QuantityError> {
    let trimmed = text.trim().replace('\u{2212}', "-");
    let lower = trimmed.trim_start_matches(['+', '-']).to_ascii_lowercase();
    if lower.starts_with("nan") || lower.starts_with("inf") {
        return Err(not_finite(text, kind));
    }
    let end = number_end(&trimmed);
    let (number, unit) = trimmed.split_at(end);
    // "1,5 m" and "1 500 m" are read differently in different countries: neither is guessed at.
    // A unit such as "1/K" stands off from its number: "2e-51/K" is another number.
    let per = unit.starts_with(' ') && unit.trim_start().starts_with("1/");
    let ambiguous =
        !per && unit.trim_start().starts_with(|c: char| c == ',' || c.is_ascii_digit() || c == '.');
    match number.parse::<f64>() {
        Ok(_) if ambiguous => Err(not_a_number(text, kind)),
        Ok(value) if value.is_finite() => Ok((value, tidy(unit))),
        Ok(_) => Err(not_finite(text, kind)),
        Err(_) => Err(not_a_number(text, kind)),
    }
}

/// Byte length of the longest decimal number at the start. An `e` counts only before digits,
/// so that no unit beginning with `e` is eaten.
fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |mut at: usize| {
        while bytes.get(at).is_some_and(u8::is_ascii_digit) {
            at += 1;
        }
        at
    };
    let mut end = digits(usize::from(matches!(bytes.first(), Some(b'+' | b'-'))));
    if bytes.get(end) == Some(&b'.') {
        end = digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = digits(end + 1 + sign);
        if exponent > end + 1 + sign {
            end = exponent;
        }
    }
    end
}

fn tidy(unit: &str) -> String {
    let mut out = unit.split_whitespace().collect::<Vec<_>>().join(" ");
    for sign in ["/", "·", "*"] {
        out = out.replace(&format!(" {sign}"), sign).replace(&format!("{sign} "), sign);
    }
    out.replace("**", "^")
}

fn not_a_number(text: &str, kind: &Kind) -> QuantityError {
    QuantityError::NotANumber { text: text.to_owned(), kind: kind.name, example: kind.example }
}

fn not_finite(text: &str, kind: &Kind) -> QuantityError {
    QuantityError::NotFinite { text: text.to_owned(), kind: kind.name, example: kind.example }
}

fn unknown(text: &str, unit: &str, kind: &Kind) -> QuantityError {
    if let Some((found, _)) = unit_kind(unit) {
        return QuantityError::WrongKind {
            text: text.to_owned(),
            found: found.name,
            kind: kind.name,
            example: kind.example,
        };
    }
    let near = kind.units.iter().find(|u| u.symbol.eq_ignore_ascii_case(unit));
    QuantityError::UnknownUnit {
        unit: unit.to_owned(),
        kind: kind.name,
        hint: near.map_or_else(String::new, |u| format!(" (did you mean \"{}\"?)", u.symbol)),
        known: kind.units.iter().map(|u| u.symbol).collect::<Vec<_>>().join(", "),
    }
}
