//! Range checks shared by all models: each returns the SI value or says what is wrong.

use super::{Invalid, Quantity, print};

fn fail<Q: Quantity>(parameter: &str, q: Q, allowed: &str) -> Invalid {
    Invalid::new(parameter, print(q), allowed)
}

/// The SI value of a finite quantity.
///
/// # Errors
/// [`Invalid`] for NaN and infinities.
pub fn finite<Q: Quantity>(parameter: &str, q: Q) -> Result<f64, Invalid> {
    if q.si().is_finite() { Ok(q.si()) } else { Err(fail(parameter, q, "a finite number")) }
}

/// The SI value of a finite quantity above zero.
///
/// # Errors
/// [`Invalid`] for NaN, infinities, zero and negative values.
pub fn positive<Q: Quantity>(parameter: &str, q: Q) -> Result<f64, Invalid> {
    if finite(parameter, q)? > 0.0 { Ok(q.si()) } else { Err(fail(parameter, q, "above zero")) }
}

/// The SI value of a finite quantity of zero or more.
///
/// # Errors
/// [`Invalid`] for NaN, infinities and negative values.
pub fn non_negative<Q: Quantity>(parameter: &str, q: Q) -> Result<f64, Invalid> {
    if finite(parameter, q)? >= 0.0 { Ok(q.si()) } else { Err(fail(parameter, q, "zero or more")) }
}

/// The SI value of a finite quantity from `low` to `high`, both allowed.
///
/// # Errors
/// [`Invalid`] for NaN, infinities and values outside.
pub fn between<Q: Quantity>(parameter: &str, q: Q, low: Q, high: Q) -> Result<f64, Invalid> {
    if finite(parameter, q)? >= low.si() && q.si() <= high.si() {
        Ok(q.si())
    } else {
        Err(fail(parameter, q, &format!("from {} to {}", print(low), print(high))))
    }
}

/// The SI value of a ratio above zero and at most one, such as an efficiency.
///
/// # Errors
/// [`Invalid`] for NaN, infinities and values outside.
pub fn fraction(parameter: &str, q: super::Ratio) -> Result<f64, Invalid> {
    if finite(parameter, q)? > 0.0 && q.si() <= 1.0 {
        Ok(q.si())
    } else {
        Err(fail(parameter, q, "above 0 and at most 1"))
    }
}

/// A number of things from `low` to `high`, both allowed.
///
/// # Errors
/// [`Invalid`] for a number outside.
pub fn count(parameter: &str, n: usize, low: usize, high: usize) -> Result<usize, Invalid> {
    if (low..=high).contains(&n) {
        Ok(n)
    } else {
        Err(Invalid::new(parameter, n.to_string(), format!("from {low} to {high}")))
    }
}
