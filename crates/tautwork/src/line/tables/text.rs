//! Tables as text.

use serde::{Deserialize, Serialize};

use super::{AngleRow, MidLoadRow, SagRow};
use crate::line::LineError;
use crate::quantity::{Angle, Force, Invalid, Length, LineLoad, Quantity, Ratio, print};

/// A table to print.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LineTable {
    /// Rows of [`sag_table`](super::sag_table).
    Sag(Vec<SagRow>),
    /// Rows of [`mid_load_table`](super::mid_load_table).
    MidLoad(Vec<MidLoadRow>),
    /// Rows of [`angle_table`](super::angle_table).
    Angle(Vec<AngleRow>),
}

/// Form of a printed table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TableFormat {
    /// A table of Markdown.
    #[default]
    Markdown,
    /// Values between commas.
    Csv,
}

/// How a table is printed. Units are in its head; angles are in degrees, ratios plain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct TableStyle {
    /// Markdown if left out.
    pub format: TableFormat,
    /// Unit of lengths; m if left out.
    pub length_unit: String,
    /// Unit of forces; kN if left out.
    pub force_unit: String,
    /// Unit of weights per length; N/m if left out.
    pub weight_unit: String,
    /// Decimals of every number but angles, from 0 to 12; 3 if left out.
    pub decimals: usize,
}

impl Default for TableStyle {
    fn default() -> Self {
        Self {
            format: TableFormat::Markdown,
            length_unit: "m".to_owned(),
            force_unit: "kN".to_owned(),
            weight_unit: "N/m".to_owned(),
            decimals: 3,
        }
    }
}

/// A table as Markdown or comma-separated text.
///
/// # Errors
/// [`LineError::Invalid`] for a unit of another kind, numbers that are none and more than 12 decimals.
///
/// # Example
/// ```
/// use tautwork::line::{LineTable, TableFormat, TableStyle, mid_load_table, table_text};
/// use tautwork::quantity::Words;
/// let rows = mid_load_table(&[10.0.percent()], 1.0.kilonewtons())?;
/// let style = TableStyle { format: TableFormat::Csv, decimals: 2, ..TableStyle::default() };
/// let text = table_text(&LineTable::MidLoad(rows.clone()), &style)?;
/// assert_eq!(text.lines().nth(1), Some("0.10,11.3,2.55,2.50,2.55"));
/// let wrong = TableStyle { force_unit: "m".to_owned(), ..style };
/// assert!(table_text(&LineTable::MidLoad(rows), &wrong).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn table_text(table: &LineTable, style: &TableStyle) -> Result<String, LineError> {
    if style.decimals > 12 {
        return Err(Invalid::new("decimals", style.decimals.to_string(), "from 0 to 12").into());
    }
    let mut page = Page { style, head: Vec::new(), lines: Vec::new() };
    // The head is made of the first row, so that an empty table has the head of nothing.
    match table {
        LineTable::Sag(rows) => {
            for row in rows {
                page.start();
                page.length("span", row.span)?;
                page.weight("weight", row.weight)?;
                page.force("tension", row.tension)?;
                page.length("sag", row.sag)?;
                page.force("horizontal", row.h)?;
                page.force("end", row.tension_end)?;
                page.length("length", row.length)?;
                page.angle("end slope", row.angle_end)?;
            }
        }
        LineTable::MidLoad(rows) => {
            for row in rows {
                page.start();
                page.ratio("sag / span", row.sag_over_span)?;
                page.angle("angle", row.angle)?;
                page.ratio("tension / load", row.tension_over_load)?;
                page.ratio("horizontal / load", row.h_over_load)?;
                page.force("tension", row.tension)?;
            }
        }
        LineTable::Angle(rows) => {
            for row in rows {
                page.start();
                page.angle("included", row.included)?;
                page.angle("from level", row.from_level)?;
                page.ratio("tension / load", row.tension_over_load)?;
                page.ratio("tension factor", row.tension_factor)?;
                page.ratio("reduction factor", row.reduction_factor)?;
                page.ratio("block factor", row.block_factor)?;
            }
        }
    }
    Ok(page.text())
}

/// A table on its way to text.
struct Page<'a> {
    style: &'a TableStyle,
    head: Vec<String>,
    lines: Vec<Vec<String>>,
}

impl Page<'_> {
    fn start(&mut self) {
        self.lines.push(Vec::new());
    }

    fn add(&mut self, name: &str, unit: &str, value: f64, decimals: usize) {
        if self.lines.len() == 1 {
            let shown = if unit.is_empty() { name.to_owned() } else { format!("{name} ({unit})") };
            self.head.push(shown);
        }
        if let Some(line) = self.lines.last_mut() {
            line.push(format!("{value:.decimals$}"));
        }
    }

    fn quantity<Q: Quantity>(
        &mut self,
        (key, unit): (&str, &str),
        name: &str,
        q: Q,
    ) -> Result<(), LineError> {
        let Some(found) = Q::UNITS.iter().find(|u| u.symbol == unit) else {
            let allowed = format!("a unit of {}, such as \"{}\"", Q::NAME, Q::UNITS[0].symbol);
            return Err(Invalid::new(key, format!("\"{unit}\""), allowed).into());
        };
        let value = q.si() / found.factor;
        if !value.is_finite() {
            return Err(Invalid::new(name, print(q), "a finite number").into());
        }
        self.add(name, unit, value, self.style.decimals);
        Ok(())
    }

    fn length(&mut self, name: &str, q: Length) -> Result<(), LineError> {
        self.quantity(("length_unit", &self.style.length_unit), name, q)
    }

    fn force(&mut self, name: &str, q: Force) -> Result<(), LineError> {
        self.quantity(("force_unit", &self.style.force_unit), name, q)
    }

    fn weight(&mut self, name: &str, q: LineLoad) -> Result<(), LineError> {
        self.quantity(("weight_unit", &self.style.weight_unit), name, q)
    }

    fn angle(&mut self, name: &str, q: Angle) -> Result<(), LineError> {
        let degrees = q.si().to_degrees();
        if !degrees.is_finite() {
            return Err(Invalid::new(name, print(q), "a finite number").into());
        }
        self.add(name, "deg", degrees, 1);
        Ok(())
    }

    fn ratio(&mut self, name: &str, q: Ratio) -> Result<(), LineError> {
        if !q.si().is_finite() {
            return Err(Invalid::new(name, print(q), "a finite number").into());
        }
        self.add(name, "", q.si(), self.style.decimals);
        Ok(())
    }

    fn text(&self) -> String {
        let mut out = String::new();
        if self.style.format == TableFormat::Csv {
            for line in std::iter::once(&self.head).chain(&self.lines) {
                out += &line.join(",");
                out.push('\n');
            }
            return out;
        }
        let line = |cells: &[String]| format!("| {} |\n", cells.join(" | "));
        out += &line(&self.head);
        out.push('|');
        out += &"--:|".repeat(self.head.len());
        out.push('\n');
        for cells in &self.lines {
            out += &line(cells);
        }
        out
    }
}
