//! A small SVG writer: a plot area with equal or free scales, and marks in it.

use std::fmt::Write as _;

use crate::svg::escape;

/// Extent of the data.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    pub low: f64,
    pub high: f64,
}

impl Extent {
    pub fn of(values: impl IntoIterator<Item = f64>) -> Self {
        let start = Self { low: f64::INFINITY, high: f64::NEG_INFINITY };
        let extent = values
            .into_iter()
            .filter(|v| v.is_finite())
            .fold(start, |e, v| Self { low: e.low.min(v), high: e.high.max(v) });
        if extent.low <= extent.high { extent } else { Self { low: 0.0, high: 1.0 } }
    }

    pub fn padded(self, part: f64) -> Self {
        let pad = part * self.length().max(1e-9);
        Self { low: self.low - pad, high: self.high + pad }
    }

    pub fn length(self) -> f64 {
        self.high - self.low
    }

    /// Round values inside the extent, about `count` of them.
    pub fn ticks(self, count: f64) -> Vec<f64> {
        let rough = (self.length() / count).max(1e-9);
        let power = 10.0_f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0]
            .into_iter()
            .map(|m| m * power)
            .find(|&s| s >= rough * 0.999)
            .unwrap_or(10.0 * power);
        let first = (self.low / step).ceil();
        (0..100).map(|i| (first + f64::from(i)) * step).take_while(|&t| t <= self.high).collect()
    }
}

/// A drawing: marks are added in data units.
#[derive(Debug)]
pub(super) struct Drawing {
    x: Extent,
    y: Extent,
    left: f64,
    top: f64,
    width: f64,
    height: f64,
    body: String,
}

pub(super) const INK: &str = "#1d2a33";
pub(super) const QUIET: &str = "#62717c";
pub(super) const PAPER: &str = "#fbfaf6";

impl Drawing {
    /// A plot area of the given size, after margins, that shows the extents.
    pub fn new(x: Extent, y: Extent, width: f64, height: f64) -> Self {
        Self { x, y, left: 56.0, top: 40.0, width, height, body: String::new() }
    }

    /// A plot area with one scale for both directions.
    pub fn to_scale(x: Extent, y: Extent, width: f64) -> Self {
        let height = width * y.length() / x.length().max(1e-9);
        Self::new(x, y, width, height.clamp(200.0, 3.0 * width))
    }

    fn px(&self, x: f64) -> f64 {
        self.left + (x - self.x.low) / self.x.length() * self.width
    }

    fn py(&self, y: f64) -> f64 {
        self.top + (self.y.high - y) / self.y.length() * self.height
    }

    /// Length on paper of a data length along x.
    pub fn scale(&self, length: f64) -> f64 {
        length / self.x.length() * self.width
    }

    pub fn line(&mut self, points: &[(f64, f64)], style: &str) {
        if points.len() < 2 {
            return;
        }
        let mut d = String::new();
        for (i, &(x, y)) in points.iter().enumerate() {
            let _ =
                write!(d, "{}{:.1} {:.1}", if i == 0 { "M" } else { "L" }, self.px(x), self.py(y));
        }
        let _ = writeln!(
            self.body,
            r#"<path d="{d}" fill="none" stroke-linejoin="round" stroke-linecap="round" {style}/>"#
        );
    }

    /// A filled area below (or left and right of) a polyline, closed at the bottom of the drawing.
    pub fn ground(&mut self, points: &[(f64, f64)], style: &str) {
        let (Some(first), Some(last)) = (points.first(), points.last()) else { return };
        let bottom = self.y.low;
        let outline =
            [(first.0, bottom)].into_iter().chain(points.iter().copied()).chain([(last.0, bottom)]);
        let d: Vec<_> =
            outline.map(|(x, y)| format!("{:.1} {:.1}", self.px(x), self.py(y))).collect();
        let _ = writeln!(self.body, r#"<path d="M{}Z" {style}/>"#, d.join("L"));
    }

    pub fn dot(&mut self, at: (f64, f64), radius: f64, style: &str) {
        let (x, y) = (self.px(at.0), self.py(at.1));
        let _ = writeln!(self.body, r#"<circle cx="{x:.1}" cy="{y:.1}" r="{radius:.1}" {style}/>"#);
    }

    /// A text beside a point, `shift` on paper, with a halo so that it reads over lines.
    pub fn label(&mut self, at: (f64, f64), shift: (f64, f64), anchor: &str, text: &str) {
        let (x, y) = (self.px(at.0) + shift.0, self.py(at.1) + shift.1);
        let _ = writeln!(
            self.body,
            r#"<text x="{x:.1}" y="{y:.1}" text-anchor="{anchor}" paint-order="stroke" stroke="{PAPER}" stroke-width="3">{}</text>"#,
            escape(text)
        );
    }

    /// Ticks and names of both axes.
    pub fn axes(&mut self, x_name: &str, y_name: &str) {
        let bottom = self.top + self.height;
        let right = self.left + self.width;
        for tick in self.x.ticks(8.0) {
            let x = self.px(tick);
            let _ = writeln!(
                self.body,
                r#"<path d="M{x:.1} {bottom:.1}v5" stroke="{QUIET}"/><text x="{x:.1}" y="{:.1}" text-anchor="middle" fill="{QUIET}">{}</text>"#,
                bottom + 18.0,
                number(tick)
            );
        }
        for tick in self.y.ticks(8.0) {
            let y = self.py(tick);
            let _ = writeln!(
                self.body,
                r#"<path d="M{:.1} {y:.1}H{right:.1}" stroke="{QUIET}" stroke-opacity="0.18"/><text x="{:.1}" y="{:.1}" text-anchor="end" fill="{QUIET}">{}</text>"#,
                self.left,
                self.left - 8.0,
                y + 4.0,
                number(tick)
            );
        }
        let _ = writeln!(
            self.body,
            r#"<text x="{right:.1}" y="{:.1}" text-anchor="end" fill="{QUIET}">{}</text><text x="8" y="24" fill="{QUIET}">{}</text>"#,
            bottom + 36.0,
            escape(x_name),
            escape(y_name)
        );
    }

    /// A legend below the drawing, then the whole as an SVG text.
    pub fn finish(self, title: &str, about: &str, legend: &[(&str, String)]) -> String {
        let full_width = self.left + self.width + 24.0;
        let mut out = String::new();
        let columns = 1;
        let rows = legend.len().div_ceil(columns);
        let legend_top = self.top + self.height + 58.0;
        let full_height = legend_top + 22.0 * rows as f64;
        let _ = writeln!(
            out,
            r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {full_width:.0} {full_height:.0}" role="img" font-family="system-ui, sans-serif" font-size="13" fill="{INK}">"#
        );
        let _ = writeln!(out, "<title>{}</title><desc>{}</desc>", escape(title), escape(about));
        let _ = writeln!(out, r#"<rect width="100%" height="100%" fill="{PAPER}"/>"#);
        out.push_str(&self.body);
        for (i, (style, text)) in legend.iter().enumerate() {
            let x = self.left + (i % columns) as f64 * self.width / columns as f64;
            let y = legend_top + 22.0 * (i / columns) as f64;
            let _ = writeln!(
                out,
                r#"<path d="M{x:.1} {:.1}h26" fill="none" {style}/><text x="{:.1}" y="{y:.1}">{}</text>"#,
                y - 4.0,
                x + 34.0,
                escape(text)
            );
        }
        out.push_str("</svg>\n");
        out
    }
}

fn number(value: f64) -> String {
    // No "-0".
    let value = if value.abs() < 1e-9 { 0.0 } else { value };
    format!("{}", (value * 1e6).round() / 1e6)
}
