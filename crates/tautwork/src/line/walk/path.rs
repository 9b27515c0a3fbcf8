//! The line with the load at any rest length: what the searches for feet and pulleys share.

use nalgebra::Vector3;

use super::state::{Walk, WalkPlace, WalkState};
use crate::line::LineError;
use crate::line::chain_state::Hung;
use crate::line::course::Mark;
use crate::line::error::all_finite;
use crate::line::inverse::root;
use crate::line::links::Links;
use crate::line::net::{triple, vector};
use crate::line::{Chain, ChainLoad};
use crate::quantity::check::positive;
use crate::quantity::{Angle, Force, Invalid, Length, Quantity, Ratio, print};

/// A line and its load.
pub(super) struct Path {
    chain: Chain,
    near_m: Vector3<f64>,
    chord_m: Vector3<f64>,
    /// Unit vector along the span, level.
    ahead: Vector3<f64>,
    pub span_m: f64,
    pub length_m: f64,
    weight_n: f64,
}

/// The line solved with the load at one rest length.
pub(super) struct Spot {
    a_m: f64,
    hold_n: f64,
    /// Pull on the near anchor, and tension that the far one holds.
    pull_n: Vector3<f64>,
    end_n: Vector3<f64>,
    mark: Mark,
    after_n: Vector3<f64>,
    residual: f64,
}

impl Path {
    pub fn new(walk: &Walk) -> Result<Self, LineError> {
        let weight_n = positive("weight", walk.weight)?;
        let (near_m, far_m) = (vector("near", &walk.near)?, vector("far", &walk.far)?);
        let chord_m = far_m - near_m;
        let level = Vector3::new(chord_m.x, chord_m.y, 0.0);
        let span_m = positive("span", Length::from_si(level.norm()))?;
        let chain = Chain {
            near: walk.near,
            far: walk.far,
            pieces: walk.pieces.clone(),
            loads: walk.loads.clone(),
            samples: 2,
        };
        // Says what is wrong with pieces and loads before any search.
        let length_m = Links::new(&chain)?.length_m();
        positive("rest_length", Length::from_si(length_m))?;
        Ok(Self { chain, near_m, chord_m, ahead: level / span_m, span_m, length_m, weight_n })
    }

    /// Distance of a place from the near anchor.
    pub fn distance_m(&self, place: WalkPlace) -> Result<f64, LineError> {
        let (name, x_m, shown) = match place {
            WalkPlace::Distance(x) => ("distance", x.si(), print(x)),
            WalkPlace::Fraction(f) => ("fraction", f.si() * self.span_m, print(f)),
        };
        if x_m > 0.0 && x_m < self.span_m {
            return Ok(x_m);
        }
        Err(LineError::Invalid(Invalid::new(
            name,
            shown,
            format!("between the anchors, {} m apart", self.span_m),
        )))
    }

    /// Solves with the load, and a force along the span, at rest length a.
    pub fn at(&self, a_m: f64, hold_n: f64) -> Result<Spot, LineError> {
        let force_n = self.ahead * hold_n - Vector3::z() * self.weight_n;
        let mut chain = self.chain.clone();
        chain.loads.push(ChainLoad {
            at: Length::from_si(a_m.clamp(0.0, self.length_m)),
            force: triple::<Force>(&force_n),
        });
        let hung = Hung::new(&chain)?;
        let course = hung.course();
        let (mark, after_n) = (course.before(a_m), course.after(a_m).pull_n);
        let (pull_n, end_n) = (hung.state.pull_n, course.end_pull_n);
        let residual = hung.state.residual_m / hung.state.scale_m;
        Ok(Spot { a_m, hold_n, pull_n, end_n, mark, after_n, residual })
    }

    /// A spot, if there is one: a line without weight may hang slack on one side of the load, where it
    /// has no shape and no tension, and a pulley has no place on a side that is too short.
    pub fn solvable(spot: Result<Spot, LineError>) -> Result<Option<Spot>, LineError> {
        use LineError::{NotConverged, NotUnique, Unreachable};
        match spot {
            Ok(spot) => Ok(Some(spot)),
            Err(NotConverged { .. } | NotUnique | Unreachable { .. }) => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// Horizontal distance of a spot from the near anchor.
    pub fn x_m(&self, spot: &Spot) -> f64 {
        spot.mark.place_m.dot(&self.ahead)
    }

    pub fn state(&self, spot: &Spot) -> Result<WalkState, LineError> {
        let end = spot.end_n;
        let place = spot.mark.place_m;
        let (before, after) = (spot.mark.pull_n, spot.after_n);
        // Angle below the horizontal of a tension vector that points away from its anchor.
        let below = |pull: &Vector3<f64>| (-pull.z).atan2(pull.x.hypot(pull.y));
        let numbers = [
            place.norm(),
            before.norm(),
            after.norm(),
            spot.pull_n.norm(),
            end.norm(),
            spot.hold_n,
        ];
        all_finite(&numbers, "line with a load")?;
        let force = |v: &Vector3<f64>| Force::from_si(v.norm());
        let share = self.x_m(spot) / self.span_m;
        Ok(WalkState {
            at: Length::from_si(spot.a_m),
            position: triple(&(self.near_m + place)),
            below_chord: Length::from_si(share * self.chord_m.z - place.z),
            tension_before: force(&before),
            tension_after: force(&after),
            tension_near: force(&spot.pull_n),
            tension_far: force(&end),
            pull_near: triple(&spot.pull_n),
            pull_far: triple(&-end),
            slope_near: Angle::from_si(below(&spot.pull_n)),
            slope_far: Angle::from_si(below(&-end)),
            rise_before: Angle::from_si(below(&before)),
            rise_after: Angle::from_si(below(&-after)),
            hold: Force::from_si(spot.hold_n),
            residual: Ratio::from_si(spot.residual),
        })
    }

    /// The force along the span at which ln(Tₙ / T_f) less `limit` times μθ is zero, Eq. (W2).
    pub fn held(&self, a_m: f64, limit: f64, friction: f64) -> Result<Spot, LineError> {
        let excess = |spot: &Spot| spot.ln_ratio() - limit * friction * spot.wrap_rad();
        let mut f =
            |share: f64| self.at(a_m, share * self.weight_n).map_or(f64::NAN, |spot| excess(&spot));
        // Rises with the force: outwards in steps that double, up to where a side goes slack.
        let first = f(0.0);
        let sign = if first > 0.0 { -1.0 } else { 1.0 };
        let (mut low, mut high, mut barrier) = (0.0, 0.1 * sign, None);
        for _ in 0..60 {
            let value = f(high);
            if value.is_nan() {
                barrier = Some(high);
            } else if (value > 0.0) == (first > 0.0) {
                low = high;
            } else {
                break;
            }
            high = barrier.map_or(2.0 * high, |b: f64| 0.5 * (low + b));
        }
        let share =
            if first == 0.0 { Some(0.0) } else { root(low.min(high), low.max(high), &mut f) };
        let missed = || LineError::Unreachable {
            wanted: "a force that holds the load".to_owned(),
            reason: format!("none found up to {} of its weight", high.abs()),
        };
        self.at(a_m, share.ok_or_else(missed)? * self.weight_n)
    }
}

impl Spot {
    /// Height above the near anchor.
    pub fn z_m(&self) -> f64 {
        self.mark.place_m.z
    }

    pub fn a_m(&self) -> f64 {
        self.a_m
    }

    pub fn hold_n(&self) -> f64 {
        self.hold_n
    }

    /// ln(Tₙ / T_f) beside the load.
    pub fn ln_ratio(&self) -> f64 {
        (self.mark.pull_n.norm() / self.after_n.norm()).ln().clamp(-700.0, 700.0)
    }

    /// Angle by which the load turns the line.
    pub fn wrap_rad(&self) -> f64 {
        let (before, after) = (self.mark.pull_n, self.after_n);
        before.cross(&after).norm().atan2(before.dot(&after))
    }
}
