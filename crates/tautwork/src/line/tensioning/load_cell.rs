//! What a load cell in series reads at any point of a line.

use serde::{Deserialize, Serialize};

use crate::line::{Chain, ChainLoad, ChainPiece, LineError, LineNote, solve_chain};
use crate::material::Stretch;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{
    AxialRigidity, Force, GRAVITY, Invalid, Length, LineLoad, Mass, MaybeText, Quantity, Text,
    Triple, print,
};

/// A load cell with its connectors, put in series into a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoadCell {
    /// Rest length of line from the near end to the cell. A load at the same point stays on its near
    /// side.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Length, pin to pin. The line gets longer by it.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Mass.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Axial rigidity; 1 GN if left out, which does not stretch to speak of.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub axial_rigidity: Option<AxialRigidity>,
}

/// What a load cell reads.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LoadCellReading {
    /// Mean of the tensions at its two ends.
    #[serde(with = "Text::<Force>")]
    pub reading: Force,
    /// Tension at its near end.
    #[serde(with = "Text::<Force>")]
    pub tension_near_side: Force,
    /// Tension at its far end.
    #[serde(with = "Text::<Force>")]
    pub tension_far_side: Force,
    /// Tension at the same point of the line without a cell.
    #[serde(with = "Text::<Force>")]
    pub without_cell: Force,
    /// Where its near end is.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Tension at the near anchor, with the cell.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor, with the cell.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Largest tension anywhere on the line, with the cell.
    #[serde(with = "Text::<Force>")]
    pub greatest: Force,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// Tension that a load cell in series sees, Eq. (1) with the cell as a piece of its own.
///
/// # Errors
/// [`LineError::Invalid`] for a cell off the line, a length or rigidity that is not above zero and a
/// mass below zero; else as [`solve_chain`].
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainPiece, LoadCell, load_cell_reading};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
/// let none = 0.0.newtons_per_meter();
/// let line = Chain {
///     near: [0.0.meters(); 3],
///     far: [101.2.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(100.0.meters(), none, Stretch::axial_rigidity(100.0.kilonewtons())?)],
///     loads: vec![],
///     samples: 2,
/// };
/// let cell = LoadCell {
///     at: 0.0.meters(),
///     length: 0.2.meters(),
///     mass: 0.0.kilograms(),
///     axial_rigidity: None,
/// };
/// // The cell takes 0.2 m of the 1.2 m of stretch: 1.0 kN instead of 1.2 kN.
/// let seen = load_cell_reading(&line, &cell)?;
/// assert!((seen.reading.in_newtons() - 1000.0).abs() < 1e-3);
/// assert!((seen.without_cell.in_newtons() - 1200.0).abs() < 1e-6);
/// assert!(load_cell_reading(&line, &LoadCell { at: 101.0.meters(), ..cell }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn load_cell_reading(line: &Chain, cell: &LoadCell) -> Result<LoadCellReading, LineError> {
    let within = |e: Invalid| e.within("cell");
    let at_m = non_negative("at", cell.at).map_err(within)?;
    let length_m = positive("length", cell.length).map_err(within)?;
    let mass_kg = non_negative("mass", cell.mass).map_err(within)?;
    let ea = cell.axial_rigidity.unwrap_or(Force::from_si(1e9));
    let total_m: f64 = line.pieces.iter().map(|p| p.rest_length.si()).sum();
    if at_m > total_m {
        let end = format!("from 0 m to {total_m} m, the end of the line");
        return Err(Invalid::new("cell.at", print(cell.at), end).into());
    }
    let mut bare = line.clone();
    bare.loads.push(ChainLoad::mark(at_m));
    let bare = solve_chain(&bare)?;
    let piece = ChainPiece::new(
        cell.length,
        LineLoad::from_si(mass_kg * GRAVITY / length_m),
        Stretch::axial_rigidity(ea)?,
    );
    let mut with = insert(line, at_m, length_m, piece);
    let ends: f64 = with.pieces.iter().map(|p| p.rest_length.si()).sum();
    with.loads.push(ChainLoad::mark(at_m));
    with.loads.push(ChainLoad::mark((at_m + length_m).min(ends)));
    let solved = solve_chain(&with)?;
    let missing = LineError::Overflow { result: "load cell" };
    let [.., start, end] = solved.loads.as_slice() else { return Err(missing) };
    let Some(before) = bare.loads.last() else { return Err(missing) };
    let tensions = solved.loads.iter().flat_map(|l| [l.tension_before, l.tension_after]);
    let greatest = tensions
        .chain(solved.profile.tension_n.iter().copied().map(Force::from_si))
        .fold(solved.tension_near, |a, b| if b > a { b } else { a });
    let (near_n, far_n) = (start.tension_after.si(), end.tension_before.si());
    Ok(LoadCellReading {
        reading: Force::from_si(0.5 * near_n + 0.5 * far_n),
        tension_near_side: start.tension_after,
        tension_far_side: end.tension_before,
        without_cell: before.tension_after,
        position: start.position,
        tension_near: solved.tension_near,
        tension_far: solved.tension_far,
        greatest,
        notes: solved.notes,
    })
}

/// The chain with a piece put in; the loads beyond it move on.
fn insert(line: &Chain, at_m: f64, length_m: f64, piece: ChainPiece) -> Chain {
    let mut pieces = Vec::with_capacity(line.pieces.len() + 2);
    let (mut from, mut new) = (0.0, Some(piece));
    for old in &line.pieces {
        let rest = old.rest_length.si();
        if at_m < from + rest
            && let Some(cell) = new.take()
        {
            let part = at_m - from;
            if part > 0.0 {
                pieces.push(ChainPiece { rest_length: Length::from_si(part), ..old.clone() });
            }
            pieces.push(cell);
            pieces.push(ChainPiece { rest_length: Length::from_si(rest - part), ..old.clone() });
        } else {
            pieces.push(old.clone());
        }
        from += rest;
    }
    pieces.extend(new);
    let loads = line.loads.iter().map(|load| {
        let beyond = load.at.si() > at_m;
        let at = if beyond { Length::from_si(load.at.si() + length_m) } else { load.at };
        ChainLoad { at, ..load.clone() }
    });
    Chain { pieces, loads: loads.collect(), ..line.clone() }
}
