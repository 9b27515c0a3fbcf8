//! Many jumps on one rig: the field of its lines is computed once.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::SwingError;
use super::flight::Flight;
use super::fly::{finish, on_fixed_ring};
use super::jump::{Jump, Line};
use super::lines::Lines;
use super::outlook::{Outlook, both};
use super::setup::set_up;
use super::table::Table;
use crate::quantity::{Quantity, Ratio, Text};

/// The lines of a rig, ready for many jumps.
///
/// The pull of each half line is read from a table of its potential, Eq. (16) and (17), made here once:
/// about a tenth of a second, after which a jump of twenty seconds takes some milliseconds. Jumps may leave
/// lines out. Copies share the table.
#[derive(Debug, Clone)]
pub struct Jumps {
    table: Arc<Table>,
}

/// What the table of a rig is like.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TableReport {
    /// Cells of all half lines.
    pub cells: usize,
    /// Anchors: half lines with the same anchor share a look-up.
    pub anchors: usize,
    /// Half lines that would need too many cells, and are solved at every step.
    pub solved_half_lines: usize,
    /// Error bound of each pull over pull and weight of the half line.
    #[serde(with = "Text::<Ratio>")]
    pub bound: Ratio,
    /// Greatest error found between the knots.
    #[serde(with = "Text::<Ratio>")]
    pub worst: Ratio,
}

impl Jumps {
    /// Makes the table of the lines of a rig.
    ///
    /// # Errors
    /// [`SwingError`]: a line out of range, or lines without equilibrium. None of lines is an error of
    /// the jump, not of the table.
    ///
    /// # Example
    /// ```
    /// use tautwork::swing::Jumps;
    /// assert_eq!(Jumps::new(&[])?.report().cells, 0);
    /// # Ok::<(), tautwork::swing::SwingError>(())
    /// ```
    pub fn new(lines: &[Line]) -> Result<Self, SwingError> {
        Ok(Self { table: Arc::new(Table::new(lines)?) })
    }

    /// [`fly`](super::fly()) with lines of this rig.
    ///
    /// # Errors
    /// As [`fly`](super::fly()); also a line that is not one of the rig's.
    pub fn fly(&self, jump: &Jump) -> Result<Flight, SwingError> {
        if jump.fixed_ring.is_some() {
            return on_fixed_ring(jump);
        }
        finish(jump, set_up(jump, self.lines(jump)?, self.table.hang_m)?)
    }

    /// [`outlook`](super::outlook()) with lines of this rig.
    ///
    /// # Errors
    /// As [`Self::fly`].
    pub fn outlook(&self, jump: &Jump) -> Result<Outlook, SwingError> {
        both(jump, |jump| self.fly(jump))
    }

    /// What the table is like.
    #[must_use]
    pub fn report(&self) -> TableReport {
        TableReport {
            cells: self.table.cells(),
            anchors: self.table.groups.len(),
            solved_half_lines: self.table.solved_halves(),
            bound: Ratio::from_si(Table::bound()),
            worst: Ratio::from_si(self.table.worst),
        }
    }

    fn lines(&self, jump: &Jump) -> Result<Lines, SwingError> {
        let mut chosen = Vec::with_capacity(jump.lines.len());
        for (i, line) in jump.lines.iter().enumerate() {
            let known = self.table.lines.iter().enumerate();
            let mut same = known.filter(|(at, known)| *known == line && !chosen.contains(at));
            let missing =
                || SwingError::contradiction(&format!("lines[{i}]"), "is not a line of the rig");
            chosen.push(same.next().ok_or_else(missing)?.0);
        }
        Ok(Lines::new(Arc::clone(&self.table), chosen))
    }
}
