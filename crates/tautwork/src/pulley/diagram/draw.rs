//! A scene as SVG text.

use std::fmt::Write as _;

use super::super::BodyKind;
use super::scene::{LINE, Scene};
use crate::svg::escape;

const INK: &str = "#16212b";
const PAPER: &str = "#ffffff";
const QUIET: &str = "#5b6975";
/// Look of each rope: colour, dash. The lightness differs from each to the next, and so does the dash, so that they
/// can be told apart without colour.
const ROPES: [(&str, &str); 4] =
    [("#0b3c6f", ""), ("#d97b1c", ""), ("#3f7d53", "14 5"), ("#9a6fb0", "3 6")];
const TOP: f64 = 56.0;
/// Room for one letter of the small text, on average.
const LETTER: f64 = 10.0;

/// Writes the picture.
pub(super) fn draw(scene: &Scene) -> String {
    let many = scene.ropes.len() > 1;
    let rows = scene.below.len() + if many { scene.ropes.len() } else { 0 };
    let height = TOP + scene.height + LINE * rows as f64 + 30.0;
    let longest = scene.below.iter().map(|text| text.chars().count()).max().unwrap_or(0);
    let width = scene.width.max(380.0).max(32.0 + LETTER * longest as f64);
    let mut out = String::new();
    // Writing to a String cannot fail.
    let _ = write!(
        out,
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0} {height:.0}" role="img" font-family="system-ui, sans-serif" font-size="19" fill="{INK}"><title>{title}</title><rect width="100%" height="100%" fill="{PAPER}"/><text x="16" y="34" font-size="23" font-weight="700">{title}</text><g transform="translate(0 {TOP})">"#,
        title = escape(&scene.title),
    );
    leaders(&mut out, scene);
    bars(&mut out, scene);
    wheels(&mut out, scene);
    for line in &scene.ropes {
        rope(&mut out, &line.path, line.rope);
    }
    arrows(&mut out, scene);
    grabs(&mut out, scene);
    chips(&mut out, scene);
    labels(&mut out, scene);
    let _ = write!(out, "</g>");
    let mut y = TOP + scene.height + LINE;
    if many {
        for line in &scene.ropes {
            rope(&mut out, &format!("M16 {:.1}h54", y - 6.0), line.rope);
            let _ = write!(out, r#"<text x="82" y="{y:.1}">{}</text>"#, escape(&line.name));
            y += LINE;
        }
    }
    for text in &scene.below {
        let _ = write!(out, r#"<text x="16" y="{y:.1}">{}</text>"#, escape(text));
        y += LINE;
    }
    out.push_str("</svg>\n");
    out
}

fn rope(out: &mut String, path: &str, number: usize) {
    let (colour, dash) = ROPES[number % ROPES.len()];
    let _ = write!(
        out,
        r#"<path d="{path}" fill="none" stroke="{PAPER}" stroke-width="11"/><path d="{path}" fill="none" stroke="{colour}" stroke-width="6" stroke-linejoin="round"{}/>"#,
        if dash.is_empty() { String::new() } else { format!(r#" stroke-dasharray="{dash}""#) },
    );
    // The second rope has a bright core: dark, cored, long dashes, dots.
    if number % ROPES.len() == 1 {
        let _ = write!(out, r#"<path d="{path}" fill="none" stroke="{PAPER}" stroke-width="2"/>"#);
    }
}

fn leaders(out: &mut String, scene: &Scene) {
    for label in &scene.labels {
        let ((x0, y0), (x1, y1)) = (label.leader_from, label.at);
        let _ = write!(
            out,
            r#"<path d="M{x0:.1} {y0:.1}L{:.1} {y1:.1}" stroke="{QUIET}" stroke-width="1.5" stroke-dasharray="2 5" fill="none"/>"#,
            x1 - 6.0
        );
    }
}

/// Each is drawn as if its ropes left downwards, then turned.
fn bars(out: &mut String, scene: &Scene) {
    for bar in &scene.bars {
        let ((x, y), h) = (bar.middle, bar.half);
        let _ =
            write!(out, r#"<g transform="translate({x:.1} {y:.1}) rotate({:.0})">"#, bar.degrees);
        match bar.kind {
            // A fixed point: a bar under hatching.
            BodyKind::Anchor => {
                let _ = write!(
                    out,
                    r#"<rect x="{:.1}" y="-5" width="{:.1}" height="10" fill="{INK}"/>"#,
                    -h,
                    2.0 * h
                );
                let mut hatch = String::new();
                let mut at = 4.0 - h;
                while at < h {
                    let _ = write!(hatch, "M{at:.1} -5l9 -11");
                    at += 14.0;
                }
                let _ = write!(out, r#"<path d="{hatch}" stroke="{INK}" stroke-width="2.5"/>"#);
            }
            // A weight: broader at its foot.
            BodyKind::Load => {
                let _ = write!(
                    out,
                    r#"<path d="M{:.1} 5h{:.1}l10 -32h{:.1}z" fill="{INK}"/>"#,
                    -h,
                    2.0 * h,
                    -2.0 * h - 20.0
                );
            }
            BodyKind::Moving => {
                let _ = write!(
                    out,
                    r#"<rect x="{:.1}" y="-6" width="{:.1}" height="12" rx="6" fill="{PAPER}" stroke="{INK}" stroke-width="3"/>"#,
                    -h,
                    2.0 * h
                );
            }
            BodyKind::Hand => {}
        }
        out.push_str("</g>");
    }
}

fn wheels(out: &mut String, scene: &Scene) {
    for wheel in &scene.wheels {
        let ((x, y), (hx, hy)) = (wheel.at, wheel.hangs_from);
        let _ = write!(
            out,
            r##"<path d="M{hx:.1} {hy:.1}L{x:.1} {y:.1}" stroke="{INK}" stroke-width="5"/><circle cx="{x:.1}" cy="{y:.1}" r="{:.1}" fill="#dfe5ea" stroke="{INK}" stroke-width="2.5"/><circle cx="{x:.1}" cy="{y:.1}" r="4" fill="{INK}"/>"##,
            (wheel.radius - 3.0).max(2.0)
        );
    }
}

fn arrows(out: &mut String, scene: &Scene) {
    for arrow in &scene.arrows {
        let ((x0, y0), (x1, y1)) = (arrow.from, arrow.to);
        let length = (x1 - x0).hypot(y1 - y0).max(1e-9);
        let (ux, uy) = ((x1 - x0) / length, (y1 - y0) / length);
        let (bx, by) = (x1 - 20.0 * ux, y1 - 20.0 * uy);
        let _ = write!(
            out,
            r#"<path d="M{x0:.1} {y0:.1}L{bx:.1} {by:.1}" stroke="{INK}" stroke-width="6"/><path d="M{x1:.1} {y1:.1}L{:.1} {:.1}L{:.1} {:.1}Z" fill="{INK}"/>"#,
            bx - 11.0 * uy,
            by + 11.0 * ux,
            bx + 11.0 * uy,
            by - 11.0 * ux,
        );
    }
}

/// A block on the rope with a wedge that points against the run it stops.
fn grabs(out: &mut String, scene: &Scene) {
    for grab in &scene.grabs {
        let ((x, y), (ux, uy)) = (grab.at, grab.against);
        let point =
            |a: f64, b: f64| format!("{:.1} {:.1}", x + a * ux - b * uy, y + a * uy + b * ux);
        let _ = write!(
            out,
            r#"<path d="M{}L{}L{}Z" fill="{INK}" stroke="{PAPER}" stroke-width="2"/><path d="M{}L{}" stroke="{INK}" stroke-width="6"/>"#,
            point(-13.0, 0.0),
            point(9.0, 12.0),
            point(9.0, -12.0),
            point(13.0, 13.0),
            point(13.0, -13.0),
        );
    }
}

fn chips(out: &mut String, scene: &Scene) {
    for chip in &scene.chips {
        let (x, y) = chip.at;
        let half = 0.5 * (chip.text.chars().count() as f64 * 11.0 + 10.0);
        let _ = write!(
            out,
            r#"<rect x="{:.1}" y="{:.1}" width="{:.1}" height="26" rx="5" fill="{PAPER}"/><text x="{x:.1}" y="{:.1}" text-anchor="middle" font-weight="600">{}</text>"#,
            x - half,
            y - 13.0,
            2.0 * half,
            y + 6.5,
            escape(&chip.text)
        );
    }
}

fn labels(out: &mut String, scene: &Scene) {
    for label in &scene.labels {
        let (x, y) = label.at;
        for (i, text) in label.lines.iter().enumerate() {
            let weight = if i == 0 { "700" } else { "400" };
            let _ = write!(
                out,
                r#"<text x="{x:.1}" y="{:.1}" font-weight="{weight}" paint-order="stroke" stroke="{PAPER}" stroke-width="5">{}</text>"#,
                y + 6.0 + LINE * i as f64,
                escape(text)
            );
        }
    }
}
