//! Where bodies stand on paper, and how they are turned there.

use super::super::System;
use super::columns::stops;
use crate::quantity::Quantity;

/// Room for the bodies.
const WIDTH: f64 = 400.0;
const HEIGHT: f64 = 480.0;
pub(super) const MARGIN: f64 = 60.0;

pub(super) type Point = (f64, f64);

/// Places on paper: x along the level direction in which the bodies spread the most, y down.
pub(super) fn paper(system: &System) -> Vec<Point> {
    let at: Vec<[f64; 3]> = system.bodies.iter().map(|b| b.position.map(Quantity::si)).collect();
    let n = at.len().max(1) as f64;
    // Divided first, so that places near the end of the number range still add up.
    let mean = |i: usize| at.iter().map(|p| p[i] / n).sum::<f64>();
    let (mx, my) = (mean(0), mean(1));
    let size = at.iter().map(|p| (p[0] - mx).abs().max((p[1] - my).abs())).fold(0.0, f64::max);
    let size = if size > 0.0 { size } else { 1.0 };
    let level: Vec<Point> = at.iter().map(|p| ((p[0] - mx) / size, (p[1] - my) / size)).collect();
    let (cos, sin) = axis(level.iter().copied());
    let along: Vec<f64> = level.iter().map(|(x, y)| x * cos + y * sin).collect();
    let height: Vec<f64> = at.iter().map(|p| p[2]).collect();
    let (along, height) = (spread(&along), spread(&height));
    let to = |(x, z): (&f64, &f64)| (MARGIN + x * WIDTH, MARGIN + (1.0 - z) * HEIGHT);
    along.iter().zip(&height).map(to).collect()
}

/// Unit vector of the line along which these vectors lie the most, whichever way they point.
fn axis(vectors: impl Iterator<Item = Point>) -> Point {
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (x, y) in vectors {
        (xx, xy, yy) = (xx + x * x, xy + x * y, yy + y * y);
    }
    let (sin, cos) = (0.5 * (2.0_f64 * xy).atan2(xx - yy)).sin_cos();
    (cos, sin)
}

/// Values from 0 to 1, half way between where they are and even steps in their order, so that what crowds is drawn
/// apart and what is higher stays higher.
fn spread(values: &[f64]) -> Vec<f64> {
    let (low, high) =
        values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), &v| (l.min(v), h.max(v)));
    let size = high - low;
    // Closer than this is one place.
    let same = 0.01 * size;
    let mut order: Vec<f64> = values.to_vec();
    order.sort_by(f64::total_cmp);
    order.dedup_by(|b, a| *b - *a <= same);
    let steps = (order.len() as f64 - 1.0).max(1.0);
    let place = |&v: &f64| {
        let rank = order.iter().filter(|&&o| o + same < v).count() as f64 / steps;
        let place = (v - low) / size;
        // Past the number range the order is all there is.
        let place = if place.is_finite() { place } else { rank };
        0.5 * (place + rank.min(1.0))
    };
    if order.len() < 2 { vec![0.5; values.len()] } else { values.iter().map(place).collect() }
}

/// Unit vector between two points; down if they are one.
pub(super) fn direction(from: Point, to: Point) -> Point {
    let (x, y) = (to.0 - from.0, to.1 - from.1);
    let length = x.hypot(y);
    if length > 1e-9 { (x / length, y / length) } else { (0.0, 1.0) }
}

/// For each body the direction in which its ropes leave the most: its bar stands across it.
pub(super) fn facing(system: &System, places: &[Point]) -> Vec<Point> {
    let mut leaving: Vec<Vec<Point>> = vec![Vec::new(); places.len()];
    for rope in 0..system.ropes.len() {
        for pair in stops(system, rope).windows(2) {
            let (a, b) = (pair[0], pair[1]);
            leaving[a].push(direction(places[a], places[b]));
            leaving[b].push(direction(places[b], places[a]));
        }
    }
    let of = |vectors: Vec<Point>| {
        let (x, y) = axis(vectors.iter().copied());
        let with = vectors.iter().map(|v| v.0 * x + v.1 * y).sum::<f64>();
        if with < 0.0 { (-x, -y) } else { (x, y) }
    };
    leaving.into_iter().map(of).collect()
}
