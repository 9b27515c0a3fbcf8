//! Names of series.

/// Whether a name ends with a unit, as names of series do: a list of plain floats with such a name is a
/// series even when it is empty.
#[must_use]
pub fn is_series(name: &str) -> bool {
    const UNITS: [&str; 13] =
        ["s", "m", "n", "kn", "kg", "j", "rad", "deg", "hz", "m_s", "n_m", "n_per_m", "kg_per_m"];
    UNITS.iter().any(|unit| name.strip_suffix(unit).is_some_and(|rest| rest.ends_with('_')))
}
