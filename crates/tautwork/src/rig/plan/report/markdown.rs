//! The report as Markdown.

use std::fmt::Write as _;

use super::Report;
use crate::rig::plan::table::Table;

/// The whole report as Markdown (CommonMark with tables).
pub(super) fn markdown(report: &Report) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "# Plan for {}\n", line(&report.rig));
    for caution in &report.cautions {
        let _ = writeln!(out, "> **{}**", line(caution));
    }
    let (first, items, others) = report.verdict_parts();
    let _ = writeln!(out, "\n## {}\n", line(first));
    for item in items {
        let _ = writeln!(out, "- {}", line(item));
    }
    for other in others {
        let _ = writeln!(out, "\n{}", line(other));
    }
    if let Some(note) = &report.note {
        let _ = writeln!(out, "\n{}", line(note));
    }
    let mut part = "";
    for one in &report.tables {
        if one.part != part {
            part = &one.part;
            let _ = writeln!(out, "\n## {}", line(part));
        }
        table(one, &mut out);
    }
    let _ = writeln!(out, "\n## Notes\n");
    for note in &report.notes {
        let _ = writeln!(out, "- {}", line(note));
    }
    out
}

fn table(table: &Table, out: &mut String) {
    let _ = writeln!(out, "\n### {}\n", line(&table.title));
    if !table.remark.is_empty() {
        let _ = writeln!(out, "{}\n", line(&table.remark));
    }
    let box_ = |text: &str| if table.tick { format!("| {text} ") } else { String::new() };
    let row = |cells: &mut dyn Iterator<Item = &String>| {
        cells.fold(String::new(), |mut row, cell| {
            let _ = write!(row, "| {} ", inline(cell));
            row
        })
    };
    let _ = writeln!(out, "{}{}|", box_("☐"), row(&mut table.head.iter()));
    let rules = (0..table.head.len()).map(|c| if table.is_numeric(c) { "|--:" } else { "|---" });
    let tick = if table.tick { "|---" } else { "" };
    let _ = writeln!(out, "{tick}{}|", rules.collect::<String>());
    for cells in &table.rows {
        let _ = writeln!(out, "{}{}|", box_("☐"), row(&mut cells.iter()));
    }
    if let Some(source) = table.source() {
        let _ = writeln!(out, "\n{}", line(&source));
    }
}

/// Text of the document that means itself: no markup, no HTML, no end of the line or of the cell.
fn inline(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | '`' | '*' | '_' | '{' | '}' | '[' | ']' | '<' | '>' | '|' | '~' | '&' | '$'
            | '!' => {
                out.push('\\');
                out.push(c);
            }
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out.trim().to_owned()
}

/// The same at the beginning of a line, where a sign or a number may begin a heading or a list.
fn line(text: &str) -> String {
    let text = inline(text);
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    let rest = &text[digits..];
    let list = digits > 0 && rest.starts_with(['.', ')']);
    let sign = digits == 0 && rest.starts_with(['#', '+', '-', '=']);
    if list || sign { format!("{}\\{rest}", &text[..digits]) } else { text }
}

#[cfg(test)]
mod tests {
    use super::{inline, line};

    // CommonMark 0.31: a backslash makes ASCII punctuation literal; GFM: a pipe in a cell is escaped.
    #[test]
    fn nothing_in_a_text_is_markup() {
        assert_eq!(
            inline("a|b <script> [x](y) `c` *d*\ne\\"),
            "a\\|b \\<script\\> \\[x\\](y) \\`c\\` \\*d\\* e\\\\"
        );
        assert_eq!(line("# head"), "\\# head");
        assert_eq!(line("1. item"), "1\\. item");
        assert_eq!(line("- item"), "\\- item");
        assert_eq!(line("1 check"), "1 check");
        assert_eq!(line("-85.4 m"), "\\-85.4 m");
    }
}
