//! The report as one HTML file.

use std::fmt::Write as _;

use super::Report;
use crate::rig::plan::table::Table;
use crate::svg::escape;

/// No script, no request: only what stands in the file.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/// Characters beyond which a cell wraps, and on a phone takes two or all three columns of its card.
const LONG: usize = 24;
const WIDE: usize = 12;

/// The whole report as one HTML file: inline style, inline pictures, no script.
pub(super) fn html(report: &Report) -> String {
    let mut out = String::new();
    let name = escape(&report.rig);
    let _ = writeln!(
        out,
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <title>Plan for {name}</title>\n<style>\n{}</style>\n</head>\n<body id=\"top\">",
        include_str!("report.css")
    );
    let _ = writeln!(out, "<header>\n<p>Plan for</p>\n<h1>{name}</h1>");
    if let Some(note) = &report.note {
        let _ = writeln!(out, "<p>{}</p>", escape(note));
    }
    out.push_str("</header>\n");
    cautions(report, &mut out);
    verdict(report, &mut out);
    index(report, &mut out);
    pictures(report, &mut out);
    let mut part = "";
    for one in &report.tables {
        if one.part != part {
            part = &one.part;
            let _ = writeln!(out, "<h2>{}</h2>", escape(part));
        }
        table(one, &mut out);
    }
    list("notes", "Notes", &report.notes, &mut out);
    out.push_str(
        "<footer>\n<p>Calculations, not permission. Local codes, manufacturers' instructions and licensed \
         practice rule. Pages of theory stand beside the source of each model.</p>\n\
         <p class=\"sign\"><span>Checked by</span><span>Date</span></p>\n</footer>\n</body>\n</html>\n",
    );
    out
}

fn cautions(report: &Report, out: &mut String) {
    if let Some((first, others)) = report.cautions.split_first() {
        let _ = write!(out, "<aside>\n<p><b>{}</b></p>\n<p>", escape(first));
        let others: Vec<_> = others.iter().map(|caution| escape(caution)).collect();
        let _ = writeln!(out, "{}</p>\n</aside>", others.join(" "));
    }
}

fn verdict(report: &Report, out: &mut String) {
    let (first, items, others) = report.verdict_parts();
    let class = if report.falls_short() { "verdict short" } else { "verdict" };
    let _ = writeln!(out, "<section class=\"{class}\">\n<h2>{}</h2>", escape(first));
    if !items.is_empty() {
        out.push_str("<ul>\n");
        for item in items {
            let _ = writeln!(out, "<li>{}</li>", escape(item));
        }
        out.push_str("</ul>\n");
    }
    for other in others {
        let _ = writeln!(out, "<p>{}</p>", escape(other));
    }
    out.push_str("</section>\n");
}

fn short(table: &Table) -> String {
    match table.rows.iter().filter(|row| Table::falls_short(row)).count() {
        0 => String::new(),
        count => format!(" <mark>{count} short</mark>"),
    }
}

fn index(report: &Report, out: &mut String) {
    out.push_str("<nav>\n<details>\n<summary>Contents</summary>\n<ul>\n");
    for table in &report.tables {
        let (key, title) = (escape(&table.key), escape(&table.title));
        let _ = writeln!(out, "<li><a href=\"#{key}\">{title}{}</a></li>", short(table));
    }
    out.push_str("<li><a href=\"#notes\">Notes</a></li>\n</ul>\n</details>\n</nav>\n");
}

fn pictures(report: &Report, out: &mut String) {
    let pictures = [&report.pictures.side_view, &report.pictures.force];
    let pictures = pictures.into_iter().chain(&report.pictures.haul);
    for picture in pictures.filter(|svg| !svg.is_empty()) {
        let _ = writeln!(out, "<figure>\n{picture}</figure>");
    }
}

fn table(table: &Table, out: &mut String) {
    let (key, title) = (escape(&table.key), escape(&table.title));
    let _ = writeln!(
        out,
        "<section id=\"{key}\">\n<h3>{title}{} <a href=\"#top\" title=\"to the top\">↑</a></h3>",
        short(table)
    );
    if !table.remark.is_empty() {
        let _ = writeln!(out, "<p>{}</p>", escape(&table.remark));
    }
    let numeric: Vec<bool> = (0..table.head.len()).map(|c| table.is_numeric(c)).collect();
    let of = |c: usize| match numeric.get(c) {
        _ if table.head.get(c).is_some_and(|head| head == "verdict") => "judged",
        Some(true) => "number",
        _ => "word",
    };
    // On a phone a row of many columns is a card: its name, or two, then each figure under its head.
    let names = if of(1) == "word" { 2 } else { 1 };
    let class = if table.head.len() > 2 { "cards" } else { "pairs" };
    let _ = writeln!(out, "<div class=\"scroll\">\n<table class=\"{class}\">\n<thead><tr>");
    if table.tick {
        out.push_str("<th class=\"tick\">☐</th>");
    }
    for (c, head) in table.head.iter().enumerate() {
        let _ = write!(out, "<th class=\"{}\">{}</th>", of(c), escape(head));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        let state = if Table::falls_short(row) { " class=\"short\"" } else { "" };
        let _ = write!(out, "<tr{state}>");
        if table.tick {
            let name = escape(row.first().map_or("", String::as_str));
            let _ = write!(
                out,
                "<td class=\"tick\"><label><input type=\"checkbox\" aria-label=\"{name}\"></label></td>"
            );
        }
        for (c, cell) in row.iter().enumerate() {
            let length = cell.chars().count();
            let size = if length > LONG {
                " wide long"
            } else if length > WIDE {
                " wide"
            } else {
                ""
            };
            let mut class = format!("{}{size}", of(c));
            class += if c < names { " name" } else { "" };
            class += if cell.is_empty() { " empty" } else { "" };
            class += if cell.starts_with("SHORT") { " says" } else { "" };
            let head = escape(table.head.get(c).map_or("", String::as_str));
            let _ = write!(out, "<td class=\"{class}\" data-head=\"{head}\">{}</td>", escape(cell));
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table>\n</div>\n");
    if let Some(source) = table.source() {
        let _ = writeln!(out, "<p class=\"source\">{}</p>", escape(&source));
    }
    out.push_str("</section>\n");
}

fn list(id: &str, title: &str, items: &[String], out: &mut String) {
    let _ = writeln!(out, "<h2 id=\"{id}\">{title}</h2>\n<ul>");
    for item in items {
        let _ = writeln!(out, "<li>{}</li>", escape(item));
    }
    out.push_str("</ul>\n");
}
