//! How much webbing and rope to cut and carry.

use serde::{Deserialize, Serialize};

use crate::line::LineError;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Invalid, Length, LinearDensity, Mass, MaybeText, Quantity, Ratio, Text};

/// Cordage wound around something that holds it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wrap {
    /// What it goes around.
    pub name: String,
    /// Length of one turn.
    #[serde(with = "Text::<Length>")]
    pub circumference: Length,
    /// Turns.
    #[serde(with = "Text::<Ratio>")]
    pub turns: Ratio,
}

/// Knots of one kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Knot {
    /// Name.
    pub name: String,
    /// Length of cordage that one takes.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// How many; one if left out.
    #[serde(default = "one")]
    pub count: u32,
}

fn one() -> u32 {
    1
}

fn nothing() -> Length {
    Length::from_si(0.0)
}

fn no_part() -> Ratio {
    Ratio::from_si(0.0)
}

/// A line to cut. What is left out takes nothing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineToBring {
    /// Name.
    pub name: String,
    /// Rest length, tie-in to tie-in, of the cordage as it will stand.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Free end behind the near tie-in.
    #[serde(with = "Text::<Length>", default = "nothing")]
    pub near_tail: Length,
    /// Free end behind the far tie-in.
    #[serde(with = "Text::<Length>", default = "nothing")]
    pub far_tail: Length,
    /// Turns around anchors.
    #[serde(default)]
    pub wraps: Vec<Wrap>,
    /// Knots.
    #[serde(default)]
    pub knots: Vec<Knot>,
    /// Part of its length by which new cordage gets longer in its first loadings. The rest length is
    /// that of the worked-in line, so less is cut.
    #[serde(with = "Text::<Ratio>", default = "no_part")]
    pub bedding_in: Ratio,
    /// Error of measuring and marking, as a part of the rest length: added, so that the line is not
    /// short.
    #[serde(with = "Text::<Ratio>", default = "no_part")]
    pub marking_error: Ratio,
    /// Mass per rest length, if the mass is wanted.
    #[serde(with = "MaybeText::<LinearDensity>", default, skip_serializing_if = "Option::is_none")]
    pub linear_density: Option<LinearDensity>,
}

/// One item of the list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BringItem {
    /// What it is for.
    pub item: String,
    /// Length; bedding-in counts below zero.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
}

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BringLine {
    /// Name.
    pub name: String,
    /// What it is made up of, in the order of Eq. (T6).
    pub items: Vec<BringItem>,
    /// Their sum: the length to cut, new and without tension.
    #[serde(with = "Text::<Length>")]
    pub total: Length,
    /// Mass, if a linear density is given.
    #[serde(with = "MaybeText::<Mass>")]
    pub mass: Option<Mass>,
}

/// What to bring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LengthsToBring {
    /// Lines in the order of the input.
    pub lines: Vec<BringLine>,
    /// Length of all lines.
    #[serde(with = "Text::<Length>")]
    pub total: Length,
    /// Mass of the lines whose linear density is given.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
}

/// Webbing and rope to cut for each line, with the items of its length, Eq. (T6).
///
/// Which tails, turns and margins to take is common practice, no source; the figures are the user's.
///
/// # Errors
/// [`LineError::Invalid`] unless rest lengths are above zero and all other figures zero or more.
///
/// # Example
/// ```
/// use tautwork::line::{Knot, LineToBring, Wrap, lengths_to_bring};
/// use tautwork::quantity::{ReadLength, Words};
/// let main = LineToBring {
///     name: "main".to_owned(),
///     rest_length: 102.0.meters(),
///     near_tail: 5.0.meters(),
///     far_tail: 0.5.meters(),
///     wraps: vec![Wrap {
///         name: "boulder".to_owned(),
///         circumference: 3.0.meters(),
///         turns: 2.0.ratio(),
///     }],
///     knots: vec![Knot { name: "loop".to_owned(), length: 0.75.meters(), count: 2 }],
///     bedding_in: 2.0.percent(),
///     marking_error: 0.5.percent(),
///     linear_density: Some(68.0.grams_per_meter()),
/// };
/// // 102 + 5.5 + 6 + 1.5 − 2 (102 m of worked-in line are 100 m of new one) + 0.51.
/// let list = lengths_to_bring(std::slice::from_ref(&main))?;
/// assert!((list.total.in_meters() - 113.51).abs() < 1e-9);
/// assert!(lengths_to_bring(&[LineToBring { near_tail: (-1.0).meters(), ..main }]).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn lengths_to_bring(lines: &[LineToBring]) -> Result<LengthsToBring, LineError> {
    let mut list = LengthsToBring { lines: vec![], total: nothing(), mass: Mass::from_si(0.0) };
    for (i, line) in lines.iter().enumerate() {
        let itemised =
            itemise(line).map_err(|e| LineError::Invalid(e.within(&format!("lines[{i}]"))))?;
        list.total += itemised.total;
        list.mass += itemised.mass.unwrap_or(Mass::from_si(0.0));
        list.lines.push(itemised);
    }
    if !(list.total.si().is_finite() && list.mass.si().is_finite()) {
        return Err(LineError::Overflow { result: "length to bring" });
    }
    Ok(list)
}

fn itemise(line: &LineToBring) -> Result<BringLine, Invalid> {
    let rest_m = positive("rest_length", line.rest_length)?;
    let mut items = Vec::new();
    let mut add = |item: &str, length_m: f64| {
        if length_m != 0.0 {
            items.push(BringItem { item: item.to_owned(), length: Length::from_si(length_m) });
        }
    };
    add("rest length", rest_m);
    add("near tail", non_negative("near_tail", line.near_tail)?);
    add("far tail", non_negative("far_tail", line.far_tail)?);
    for (i, wrap) in line.wraps.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("wraps[{i}]"));
        let turn_m = positive("circumference", wrap.circumference).map_err(within)?;
        let turns = non_negative("turns", wrap.turns).map_err(within)?;
        add(&format!("wraps: {}", wrap.name), turn_m * turns);
    }
    for (i, knot) in line.knots.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("knots[{i}]"));
        let length_m = non_negative("length", knot.length).map_err(within)?;
        add(&format!("knots: {}", knot.name), length_m * f64::from(knot.count));
    }
    let bedding_in = non_negative("bedding_in", line.bedding_in)?;
    add("bedding-in", -rest_m * (bedding_in / (1.0 + bedding_in)));
    add("marking error", rest_m * non_negative("marking_error", line.marking_error)?);
    let total_m: f64 = items.iter().map(|i| i.length.si()).sum();
    let mass = match line.linear_density {
        Some(density) => Some(Mass::from_si(non_negative("linear_density", density)? * total_m)),
        None => None,
    };
    Ok(BringLine { name: line.name.clone(), items, total: Length::from_si(total_m), mass })
}
