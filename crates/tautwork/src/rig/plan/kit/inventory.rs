//! What is in the store, from CSV.

use crate::quantity::{Force, Length, Mass, Quantity, check, parse};
use crate::rig::read::unknown;
use crate::rig::{Mistake, RigError};

/// A row of the inventory: one piece of stock or several equal ones.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stock {
    pub name: String,
    pub kind: String,
    pub length: Option<Length>,
    pub count: u32,
    pub strength: Option<Force>,
    pub retired: bool,
}

const COLUMNS: [&str; 8] =
    ["name", "kind", "length", "count", "strength", "mass", "retired", "note"];
const MAX_ROWS: usize = 5000;
/// Most pieces of stock over all rows.
const MAX_PIECES: u32 = 10_000;

/// Reads an inventory, all mistakes at once.
pub(super) fn read(text: &str) -> Result<Vec<Stock>, RigError> {
    let mut mistakes = Vec::new();
    let stock = rows(text, &mut mistakes);
    if mistakes.is_empty() { Ok(stock) } else { Err(RigError::Inventory(mistakes)) }
}

fn rows(text: &str, mistakes: &mut Vec<Mistake>) -> Vec<Stock> {
    // Spreadsheets put a mark of the byte order before the text.
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let mut head: Option<Vec<String>> = None;
    let mut stock = Vec::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                mistakes.push(mistake(line_of(error.position()), "", error.to_string()));
                break;
            }
        };
        let line = line_of(record.position());
        let Some(names) = &head else {
            head = Some(read_head(&record, line, mistakes));
            continue;
        };
        if stock.len() == MAX_ROWS {
            mistakes.push(mistake(line, "", format!("there are more than {MAX_ROWS} rows")));
            break;
        }
        if record.len() != names.len() {
            let message =
                format!("this row has {} values, the head has {}", record.len(), names.len());
            mistakes.push(mistake(line, "", message));
            continue;
        }
        let mut row = Row { names, record: &record, line, mistakes };
        stock.push(row.stock());
    }
    if head.is_none() {
        mistakes.push(mistake(1, "", format!("no head; write {}", COLUMNS.join(","))));
    }
    let pieces = stock.iter().map(|s| s.count).fold(0, u32::saturating_add);
    if pieces > MAX_PIECES {
        let message = format!("{pieces} pieces of stock; there may be at most {MAX_PIECES}");
        mistakes.push(mistake(1, "count", message));
    }
    stock
}

fn line_of(position: Option<&csv::Position>) -> usize {
    position.and_then(|p| usize::try_from(p.line()).ok()).unwrap_or(1)
}

fn mistake(line: usize, column: &str, message: impl Into<String>) -> Mistake {
    Mistake { line, path: column.to_owned(), message: message.into() }
}

fn read_head(record: &csv::StringRecord, line: usize, mistakes: &mut Vec<Mistake>) -> Vec<String> {
    let names: Vec<String> = record.iter().map(str::to_lowercase).collect();
    for (i, name) in names.iter().enumerate() {
        if !COLUMNS.contains(&name.as_str()) {
            mistakes.push(mistake(line, name, unknown(name, &COLUMNS)));
        } else if names[..i].contains(name) {
            mistakes.push(mistake(line, name, "this column stands here twice; keep one"));
        }
    }
    if !names.iter().any(|name| name == "kind") {
        mistakes.push(mistake(line, "kind", "this column is missing"));
    }
    names
}

struct Row<'a> {
    names: &'a [String],
    record: &'a csv::StringRecord,
    line: usize,
    mistakes: &'a mut Vec<Mistake>,
}

impl Row<'_> {
    fn stock(&mut self) -> Stock {
        let kind = self.cell("kind").to_owned();
        if kind.is_empty() {
            self.wrong("kind", "this is empty; write the cordage or the kind of gear".to_owned());
        }
        let name = self.cell("name");
        let name =
            if name.is_empty() { format!("row at line {}", self.line) } else { name.to_owned() };
        let length = self.quantity::<Length>("length");
        let strength = self.quantity::<Force>("strength");
        self.quantity::<Mass>("mass");
        Stock { name, kind, length, count: self.count(), strength, retired: self.retired() }
    }

    fn cell(&self, column: &str) -> &str {
        let at = self.names.iter().position(|name| name == column);
        at.and_then(|i| self.record.get(i)).unwrap_or("")
    }

    fn wrong(&mut self, column: &str, message: String) {
        self.mistakes.push(mistake(self.line, column, message));
    }

    fn quantity<Q: Quantity>(&mut self, column: &str) -> Option<Q> {
        let text = self.cell(column);
        if text.is_empty() {
            return None;
        }
        let read = parse::<Q>(text).map_err(|e| e.to_string());
        let read =
            read.and_then(|q| check::positive("this", q).map(|_| q).map_err(|e| e.to_string()));
        read.map_err(|message| self.wrong(column, message)).ok()
    }

    fn count(&mut self) -> u32 {
        let text = self.cell("count");
        match text.parse::<u32>() {
            _ if text.is_empty() => 1,
            Ok(count) if count <= 1000 => count,
            _ => {
                let message = format!("\"{text}\" is not a whole number from 0 to 1000");
                self.wrong("count", message);
                1
            }
        }
    }

    fn retired(&mut self) -> bool {
        match self.cell("retired").to_lowercase().as_str() {
            "" | "no" => false,
            "yes" => true,
            other => {
                let message = format!("\"{other}\" is neither yes nor no");
                self.wrong("retired", message);
                false
            }
        }
    }
}
