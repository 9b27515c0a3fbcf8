//! Many jumps that differ a little, drawn from a seed.

use serde::{Deserialize, Serialize};

use super::flight::Flight;
use super::fly::on_fixed_ring;
use super::jump::{Jump, Response};
use super::jumps::Jumps;
use super::{Ending, SwingError};
use crate::quantity::check::{self, between, non_negative};
use crate::quantity::{Length, Quantity, Ratio, Speed, Text, Words};

/// Half widths within which each jump differs from the given one, evenly distributed and independent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spread {
    /// Jumps, 1 to 10 000.
    pub count: usize,
    /// The same seed gives the same jumps.
    pub seed: u64,
    /// Mass of the jumper, relative; below 1.
    #[serde(with = "Text::<Ratio>")]
    pub mass: Ratio,
    /// Stiffness of the jump ropes, all by the same factor, relative; below 1.
    #[serde(with = "Text::<Ratio>")]
    pub rope_stiffness: Ratio,
    /// Drag area, relative; below 1.
    #[serde(with = "Text::<Ratio>")]
    pub drag_area: Ratio,
    /// Each component of the exit velocity.
    #[serde(with = "Text::<Speed>")]
    pub exit_speed: Speed,
    /// Wind along x and y.
    #[serde(with = "Text::<Speed>")]
    pub wind: Speed,
    /// Exit along the edge, y.
    #[serde(with = "Text::<Length>")]
    pub exit_y: Length,
}

/// Many jumps side by side.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Envelope {
    /// Peak of the resultant rope force of each jump.
    pub peak_n: Vec<f64>,
    /// Lowest point of each.
    pub lowest_m: Vec<f64>,
    /// Farthest to the left of each.
    pub leftmost_m: Vec<f64>,
    /// Farthest to the right of each: least y.
    pub rightmost_m: Vec<f64>,
    /// Nearest wall of each in flight; zero at contact and where the launch zone was not left.
    /// Empty without walls.
    pub clearance_m: Vec<f64>,
    /// Jumps that ended at a wall.
    pub contacts: usize,
    /// Time of the bounds below; a jump that has ended stays where it ended.
    pub t_s: Vec<f64>,
    /// Least x of all jumps.
    pub x_low_m: Vec<f64>,
    /// Greatest x.
    pub x_high_m: Vec<f64>,
    /// Least y.
    pub y_low_m: Vec<f64>,
    /// Greatest y.
    pub y_high_m: Vec<f64>,
    /// Least z.
    pub z_low_m: Vec<f64>,
    /// Greatest z.
    pub z_high_m: Vec<f64>,
}

/// Flies a jump many times, each a little different, on one table of its lines.
///
/// The values are drawn by the generator of Steele, Lea and Flood (2014, `SplitMix64`, from memory): the
/// same seed gives the same jumps on every machine.
///
/// # Errors
/// [`SwingError`]: as [`fly`](super::fly()), or a spread out of range.
///
/// # Example
/// ```
/// use tautwork::quantity::Words;
/// use tautwork::swing::{Jump, Spread, envelope};
/// # let jump: Jump = serde_json::from_str(
/// #     r#"{"mass": "80 kg", "drag_area": "0 m²", "exit": {"x": "0 m", "z": "0 m"},
/// #         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ring_mass": "0 kg",
/// #         "fixed_ring": {"x": "0 m", "z": "0 m"}, "body_radius": "1 m",
/// #         "ropes": [{"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
/// #             "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}],
/// #         "follow": {"horizon": "4 s"}}"#,
/// # )
/// # .unwrap();
/// // `jump` as in the example of `fly`: 6.442 kN with 80 kg, and F = W + sqrt(W² + 2 W EA f) is 6.257 to
/// // 6.625 kN with 5 % less or more.
/// let spread = Spread {
///     count: 20,
///     seed: 1,
///     mass: 0.05.ratio(),
///     rope_stiffness: 0.0.ratio(),
///     drag_area: 0.0.ratio(),
///     exit_speed: 0.0.meters_per_second(),
///     wind: 0.0.meters_per_second(),
///     exit_y: 0.0.meters(),
/// };
/// let all = envelope(&jump, &spread)?;
/// assert!(all.peak_n.len() == 20 && all.peak_n.iter().all(|n| (6257.0..6625.0).contains(n)));
/// assert!(envelope(&jump, &Spread { count: 0, ..spread }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn envelope(jump: &Jump, spread: &Spread) -> Result<Envelope, SwingError> {
    check::count("count", spread.count, 1, 10_000)?;
    let relative = |name: &str, share: Ratio| between(name, share, 0.0.ratio(), 0.99.ratio());
    let mass = relative("mass", spread.mass)?;
    let stiffness = relative("rope_stiffness", spread.rope_stiffness)?;
    let drag = relative("drag_area", spread.drag_area)?;
    let exit = non_negative("exit_speed", spread.exit_speed)?;
    let wind = non_negative("wind", spread.wind)?;
    let exit_y = non_negative("exit_y", spread.exit_y)?;
    let jumps = if jump.fixed_ring.is_some() { None } else { Some(Jumps::new(&jump.lines)?) };
    let mut state = spread.seed;
    let mut draw = |half: f64| half * even(&mut state);
    let mut all = Envelope::default();
    for _ in 0..spread.count {
        let mut one = jump.clone();
        one.mass = scaled(one.mass, draw(mass));
        one.drag_area = scaled(one.drag_area, draw(drag));
        let by = draw(stiffness);
        for rope in &mut one.ropes {
            match &mut rope.response {
                Response::Solid { long_term, arm, .. } => {
                    (*long_term, *arm) = (scaled(*long_term, by), scaled(*arm, by));
                }
                Response::Pair { stiff, soft, .. } => {
                    (*stiff, *soft) = (scaled(*stiff, by), scaled(*soft, by));
                }
            }
        }
        for speed in [&mut one.exit_speed_x, &mut one.exit_speed_y, &mut one.exit_speed_z] {
            *speed = moved(*speed, draw(exit));
        }
        for speed in [&mut one.wind, &mut one.wind_y] {
            *speed = Some(moved(speed.unwrap_or_else(|| 0.0.meters_per_second()), draw(wind)));
        }
        one.exit.y = moved(one.exit.y, draw(exit_y));
        let flight = match &jumps {
            Some(jumps) => jumps.fly(&one)?,
            None => on_fixed_ring(&one)?,
        };
        all.add(&flight, !jump.walls.is_empty());
    }
    Ok(all)
}

fn scaled<Q: Quantity>(value: Q, by: f64) -> Q {
    Q::from_si(value.si() * (1.0 + by))
}

fn moved<Q: Quantity>(value: Q, by: f64) -> Q {
    Q::from_si(value.si() + by)
}

/// Evenly distributed from −1 to 1.
fn even(state: &mut u64) -> f64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^= z >> 31;
    // 53 bits fill the digits of a double.
    (z >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
}

impl Envelope {
    fn add(&mut self, flight: &Flight, walls: bool) {
        self.peak_n.push(flight.resultant.value.si());
        self.lowest_m.push(flight.lowest.value.si());
        self.leftmost_m.push(flight.leftmost.value.si());
        self.rightmost_m.push(flight.rightmost.value.si());
        if walls {
            let nearest = flight.clearances.iter().map(|c| c.least.value.si());
            self.clearance_m.push(nearest.min_by(f64::total_cmp).unwrap_or(0.0));
        }
        self.contacts += usize::from(flight.ending == Ending::Contact);
        let s = &flight.series;
        if s.t_s.len() > self.t_s.len() {
            self.t_s.clone_from(&s.t_s);
        }
        for (low, high, path) in [
            (&mut self.x_low_m, &mut self.x_high_m, &s.x_m),
            (&mut self.y_low_m, &mut self.y_high_m, &s.y_m),
            (&mut self.z_low_m, &mut self.z_high_m, &s.z_m),
        ] {
            bound(low, path, f64::min);
            bound(high, path, f64::max);
        }
    }
}

/// Widens a bound by a path; the shorter of the two stays at its last value.
fn bound(bound: &mut Vec<f64>, path: &[f64], worse: fn(f64, f64) -> f64) {
    let Some(end) = path.last() else { return };
    if bound.is_empty() {
        bound.extend(path);
        return;
    }
    if let Some(last) = bound.last().copied()
        && bound.len() < path.len()
    {
        bound.resize(path.len(), last);
    }
    for (k, bound) in bound.iter_mut().enumerate() {
        *bound = worse(*bound, *path.get(k).unwrap_or(end));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn drawn_values_are_even() {
        let mut state = 7;
        let drawn: Vec<f64> = (0..20_000).map(|_| even(&mut state)).collect();
        let n = drawn.len() as f64;
        let mean = drawn.iter().sum::<f64>() / n;
        let square = drawn.iter().map(|x| x * x).sum::<f64>() / n;
        assert!(drawn.iter().all(|x| (-1.0..1.0).contains(x)));
        assert!(mean.abs() < 0.02 && (square - 1.0 / 3.0).abs() < 0.01, "{mean} {square}");
    }

    #[test]
    fn bounds_hold_ended_paths_at_their_end() {
        let mut high = vec![];
        bound(&mut high, &[1.0, 2.0], f64::max);
        bound(&mut high, &[0.0, 3.0, 1.0], f64::max);
        assert_eq!(high, [1.0, 3.0, 2.0]);
        bound(&mut high, &[5.0], f64::max);
        assert_eq!(high, [5.0, 5.0, 5.0]);
    }
}
