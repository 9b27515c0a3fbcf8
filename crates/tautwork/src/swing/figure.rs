//! What is watched in a jump, and its value in a state.

use super::course::Course;
use super::look::Seen;
use super::model::{BODY, Model, RING, VISCOUS, speed, towards_ring};
use super::space::three;
use super::support::Support;

/// A figure whose greatest value is wanted; least values are negated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Figure {
    Resultant,
    /// The resultant between the first catch and the first lowest point.
    CatchPeak,
    Acceleration,
    Speed,
    Low,
    Left,
    Right,
    RingLow,
    RingHigh,
    RingNear,
    RingFar,
    Rope(usize),
    Stop(usize),
    /// Any wall, before the launch zone is left.
    Exit,
    /// One wall, after it.
    Wall(usize),
    /// A line at its near (0) or far (1) end.
    LineEnd(usize, usize),
    Anchor(usize),
}

/// Figures that cost little, in the order of [`ready_values`]; ropes and stops come after them.
const READY: [Figure; 11] = [
    Figure::Resultant,
    Figure::CatchPeak,
    Figure::Acceleration,
    Figure::Speed,
    Figure::Low,
    Figure::Left,
    Figure::Right,
    Figure::RingLow,
    Figure::RingHigh,
    Figure::RingNear,
    Figure::RingFar,
];

/// All figures of a jump: first those that cost little.
pub(super) fn figures<S: Support>(model: &Model<S>, course: &Course) -> Vec<Figure> {
    let mut figures = READY.to_vec();
    figures.extend((0..model.ropes.len()).map(Figure::Rope));
    figures.extend((0..model.stops.len()).map(Figure::Stop));
    let ends = |line| [Figure::LineEnd(line, 0), Figure::LineEnd(line, 1)];
    figures.extend((0..course.lines).flat_map(ends));
    figures.extend((0..course.anchors.len()).map(Figure::Anchor));
    if !course.walls.is_empty() {
        figures.push(Figure::Exit);
        figures.extend((0..course.walls.len()).map(Figure::Wall));
    }
    figures
}

/// How many figures cost little.
pub(super) fn ready_count<S: Support>(model: &Model<S>) -> usize {
    READY.len() + model.cords()
}

impl Figure {
    /// The component of the state that it is, and its sign.
    pub fn component(self) -> Option<(usize, f64)> {
        match self {
            Self::Low => Some((BODY + 2, -1.0)),
            Self::Left => Some((BODY + 1, 1.0)),
            Self::Right => Some((BODY + 1, -1.0)),
            Self::RingLow => Some((RING + 2, -1.0)),
            Self::RingHigh => Some((RING + 2, 1.0)),
            Self::RingNear => Some((RING, -1.0)),
            Self::RingFar => Some((RING, 1.0)),
            _ => None,
        }
    }
}

/// Values of the figures that cost little, all at once.
#[inline]
pub(super) fn ready_values<S: Support>(model: &Model<S>, y: &[f64], seen: &Seen, to: &mut [f64]) {
    let (body, ring) = (three(y, BODY), three(y, RING));
    let force_n = seen.force_n;
    let all = [
        force_n,
        force_n,
        seen.acceleration,
        speed(y, BODY),
        -body[2],
        body[1],
        -body[1],
        -ring[2],
        ring[2],
        -ring[0],
        ring[0],
    ];
    to[..READY.len()].copy_from_slice(&all);
    let (ropes, stops) = to[READY.len()..].split_at_mut(model.ropes.len());
    for ((to, rope), viscous) in ropes.iter_mut().zip(&model.ropes).zip(&y[VISCOUS..]) {
        *to = rope.tension_n(rope.strain(seen.distance_m), *viscous);
    }
    for (i, to) in stops.iter_mut().enumerate() {
        *to = model.tension_n(y, model.ropes.len() + i);
    }
}

/// Bound of a figure in the present step, where one is known.
pub(super) fn at_most(figure: Figure, course: &Course, most_n: &[[f64; 2]]) -> f64 {
    match figure {
        Figure::LineEnd(line, end) => most_n[line][end],
        Figure::Anchor(i) if course.anchors[i].stops.is_empty() => {
            course.anchors[i].ends.iter().map(|(line, end)| most_n[*line][*end]).sum()
        }
        _ => f64::INFINITY,
    }
}

/// Value of a figure in a state; NaN where it has none.
pub(super) fn value<S: Support>(
    model: &mut Model<S>,
    course: &Course,
    (figure, taut): (Figure, bool),
    y: &[f64],
) -> f64 {
    match figure {
        Figure::Resultant | Figure::CatchPeak => model.body_force_n(y),
        Figure::Acceleration => Seen::new(model, y).acceleration,
        Figure::Speed => speed(y, BODY),
        Figure::Rope(i) => {
            let rope = &model.ropes[i];
            rope.tension_n(rope.strain(towards_ring(y).1), y[VISCOUS + i])
        }
        Figure::Stop(i) => model.tension_n(y, model.ropes.len() + i),
        Figure::Exit => {
            let axis = course.body.axis(three(y, BODY), three(y, RING), taut);
            let away = course.walls.iter().map(|w| course.body.away_m(w, axis));
            -away.fold(f64::INFINITY, f64::min)
        }
        Figure::Wall(i) => {
            let axis = course.body.axis(three(y, BODY), three(y, RING), taut);
            -course.body.away_m(&course.walls[i], axis)
        }
        Figure::LineEnd(line, end) => {
            model.support.anchor_n(three(y, RING), line, end).unwrap_or(f64::NAN)
        }
        Figure::Anchor(i) => {
            let ring_m = three(y, RING);
            course.anchors[i].pull_n(model, y, |model, line, end| {
                model.support.anchor_pull_n(ring_m, line, end).unwrap_or([f64::NAN; 3])
            })
        }
        _ => figure.component().map_or(f64::NAN, |(i, sign)| sign * y[i]),
    }
}

#[cfg(test)]
mod tests {
    use super::super::course::run;
    use super::super::jump::Follow;
    use super::super::setup::set_up;
    use super::super::table::Table;
    use super::super::tests::demo;
    use super::*;
    use crate::quantity::Words;

    #[test]
    fn figures_taken_at_once_are_those_taken_one_by_one() {
        let mut jump = demo();
        jump.follow = Follow { horizon: 5.0.seconds(), ..Follow::default() };
        let (lines, hang_m) = Table::bare_lines(&jump.lines).unwrap();
        let mut setup = set_up(&jump, lines, hang_m).unwrap();
        // Taut, after five seconds.
        let y = run(&mut setup.model, &setup.course, &setup.start).unwrap().end;
        let seen = Seen::new(&setup.model, &y);
        let mut all = vec![0.0; ready_count(&setup.model)];
        ready_values(&setup.model, &y, &seen, &mut all);
        assert!(all[0] > 0.0);
        for (figure, got) in figures(&setup.model, &setup.course).into_iter().zip(all) {
            let want = value(&mut setup.model, &setup.course, (figure, true), &y);
            assert!((got - want).abs() <= 1e-12 * want.abs(), "{figure:?}: {got} {want}");
        }
    }
}
