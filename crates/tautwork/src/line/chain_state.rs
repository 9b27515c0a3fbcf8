//! A chain at rest: anchors, pieces, loads, and points along it.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::LineError;
use super::chain::Chain;
use super::course::{Course, Mark};
use super::links::{Links, LinksState};
use super::net::{triple, vector};
use super::note::LineNote;
use super::shape::BelowChord;
use crate::quantity::{Angle, Force, Length, Quantity, Ratio, Text, Triple};

/// Points along a chain, in SI. At a load or joint, what is on its side towards the near end.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct ChainProfile {
    /// Rest length from the near end.
    pub s_m: Vec<f64>,
    /// Along the span.
    pub x_m: Vec<f64>,
    /// To the left.
    pub y_m: Vec<f64>,
    /// Up.
    pub z_m: Vec<f64>,
    /// Tension.
    pub tension_n: Vec<f64>,
    /// Tension as a vector towards the far end, along the span.
    pub tension_x_n: Vec<f64>,
    /// The same, to the left.
    pub tension_y_n: Vec<f64>,
    /// The same, up.
    pub tension_z_n: Vec<f64>,
    /// Strain on the rest length.
    pub strain: Vec<f64>,
    /// Angle of the line above the horizontal, towards the far end.
    pub slope_rad: Vec<f64>,
}

impl ChainProfile {
    pub(super) fn push(&mut self, s_m: f64, near_m: &Vector3<f64>, mark: &Mark) {
        let place = near_m + mark.place_m;
        self.s_m.push(s_m);
        self.x_m.push(place.x);
        self.y_m.push(place.y);
        self.z_m.push(place.z);
        self.tension_n.push(mark.pull_n.norm());
        self.tension_x_n.push(mark.pull_n.x);
        self.tension_y_n.push(mark.pull_n.y);
        self.tension_z_n.push(mark.pull_n.z);
        self.strain.push(mark.strain);
        self.slope_rad.push(slope_rad(&mark.pull_n));
    }

    pub(super) fn is_finite(&self) -> bool {
        let columns = [&self.x_m, &self.y_m, &self.z_m, &self.tension_n, &self.strain];
        columns.into_iter().flatten().all(|x| x.is_finite())
    }
}

fn slope_rad(pull_n: &Vector3<f64>) -> f64 {
    pull_n.z.atan2(pull_n.x.hypot(pull_n.y))
}

/// A point load, where it comes to rest, and the line on both sides of it: before, towards the near end,
/// and after. Loads tied to one point act together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainLoadState {
    /// Rest length from the near end.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Where it is.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub below_chord: Length,
    /// Tension just before it.
    #[serde(with = "Text::<Force>")]
    pub tension_before: Force,
    /// Tension just after it.
    #[serde(with = "Text::<Force>")]
    pub tension_after: Force,
    /// Tension just before it as a vector towards the far end.
    #[serde(with = "Triple::<Force>")]
    pub pull_before: [Force; 3],
    /// Tension just after it as a vector towards the far end.
    #[serde(with = "Triple::<Force>")]
    pub pull_after: [Force; 3],
    /// Strain just before it.
    #[serde(with = "Text::<Ratio>")]
    pub strain_before: Ratio,
    /// Strain just after it.
    #[serde(with = "Text::<Ratio>")]
    pub strain_after: Ratio,
    /// Angle of the line above the horizontal, towards the far end, just before it.
    #[serde(with = "Text::<Angle>")]
    pub slope_before: Angle,
    /// Angle of the line above the horizontal, towards the far end, just after it.
    #[serde(with = "Text::<Angle>")]
    pub slope_after: Angle,
}

/// A piece of a chain at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainPieceState {
    /// Length under tension.
    #[serde(with = "Text::<Length>")]
    pub stretched_length: Length,
    /// Greatest tension in it.
    #[serde(with = "Text::<Force>")]
    pub greatest_tension: Force,
}

/// A chain at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainSolution {
    /// Pull of the chain on its near anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_near: [Force; 3],
    /// Pull of the chain on its far anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_far: [Force; 3],
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Length under tension.
    #[serde(with = "Text::<Length>")]
    pub stretched_length: Length,
    /// Lowest point.
    #[serde(with = "Triple::<Length>")]
    pub lowest: [Length; 3],
    /// Rest length from the near end to the lowest point.
    #[serde(with = "Text::<Length>")]
    pub lowest_at: Length,
    /// Largest vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Depth of the lowest point below the near anchor, zero if the near anchor is lowest.
    #[serde(with = "Text::<Length>")]
    pub sag_below_near: Length,
    /// Pieces in the order of the input.
    pub pieces: Vec<ChainPieceState>,
    /// Loads in the order of the input.
    pub loads: Vec<ChainLoadState>,
    /// Points along the chain; loads and joints are among them.
    pub profile: ChainProfile,
    /// Distance by which the computed line misses the far anchor, over the larger of rest length and
    /// chord.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
    /// Newton steps made.
    pub iterations: u32,
    /// Largest change of the wind that follows the line in the last pass, over the largest load of a
    /// part; zero for dead wind.
    #[serde(with = "Text::<Ratio>")]
    pub wind_residual: Ratio,
    /// Passes made for the wind that follows the line; zero for dead wind.
    pub wind_passes: u32,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// A solved chain.
pub(super) struct Hung {
    pub links: Links,
    pub near_m: Vector3<f64>,
    pub chord_m: Vector3<f64>,
    pub state: LinksState,
}

impl Hung {
    pub fn new(chain: &Chain) -> Result<Self, LineError> {
        let links = Links::new(chain)?;
        let near_m = vector("near", &chain.near)?;
        let chord_m = vector("far", &chain.far)? - near_m;
        let state = links.solve(&chord_m)?;
        Ok(Self { links, near_m, chord_m, state })
    }

    pub fn course(&self) -> Course<'_> {
        Course::new(&self.links, self.state.pull_n)
    }

    pub fn report(&self, chain: &Chain) -> Result<ChainSolution, LineError> {
        let course = self.course();
        let below_chord = BelowChord::new(self.chord_m);
        let below = |place: &Vector3<f64>| below_chord.depth_m(place);
        let mut profile = ChainProfile::default();
        let (mut lowest, mut lowest_at, mut sag) = (Vector3::zeros(), 0.0, 0.0_f64);
        let mut meet = |s: f64, place: Vector3<f64>| {
            if place.z < lowest.z {
                (lowest, lowest_at) = (place, s);
            }
            sag = sag.max(below(&place));
        };
        for s in self.places_m(chain.samples) {
            let mark = course.before(s);
            meet(s, mark.place_m);
            profile.push(s, &self.near_m, &mark);
        }
        // Between joints the line is lowest, or farthest below its chord, where it runs level, or
        // parallel to the chord.
        for s in course.turns_m(&Vector3::z()).chain(course.turns_m(&below_chord.normal())) {
            meet(s, course.before(s).place_m);
        }
        let mut pieces = vec![(0.0, 0.0_f64); chain.pieces.len()];
        let mut notes = Vec::new();
        for (link, pull) in course.links() {
            // |T| is convex along a link: greatest at an end.
            let far = pull - link.down * (link.q_n_per_m * link.rest_m);
            let greatest = pull.norm().max(far.norm());
            let (stretched, most) = &mut pieces[link.piece];
            *stretched += link.stretched_m(&pull);
            *most = most.max(greatest);
            notes.extend(LineNote::past_table(&link.law, greatest));
        }
        notes.dedup();
        let stretched: f64 = pieces.iter().map(|(stretched, _)| stretched).sum();
        let loads = chain.loads.iter().map(|load| {
            let (before, after) = (course.before(load.at.si()), course.after(load.at.si()));
            ChainLoadState {
                at: load.at,
                position: triple(&(self.near_m + before.place_m)),
                below_chord: Length::from_si(below(&before.place_m)),
                tension_before: Force::from_si(before.pull_n.norm()),
                tension_after: Force::from_si(after.pull_n.norm()),
                pull_before: triple(&before.pull_n),
                pull_after: triple(&after.pull_n),
                strain_before: Ratio::from_si(before.strain),
                strain_after: Ratio::from_si(after.strain),
                slope_before: Angle::from_si(slope_rad(&before.pull_n)),
                slope_after: Angle::from_si(slope_rad(&after.pull_n)),
            }
        });
        let (near_n, far_n) = (self.state.pull_n, course.end_pull_n);
        let residual = self.state.residual_m / self.state.scale_m;
        let numbers = [near_n.norm(), far_n.norm(), stretched, sag, lowest.z, residual];
        if !(numbers.iter().all(|x| x.is_finite()) && profile.is_finite()) {
            return Err(LineError::Overflow { result: "chain" });
        }
        Ok(ChainSolution {
            pull_near: triple(&near_n),
            pull_far: triple(&-far_n),
            tension_near: Force::from_si(near_n.norm()),
            tension_far: Force::from_si(far_n.norm()),
            stretched_length: Length::from_si(stretched),
            lowest: triple(&(self.near_m + lowest)),
            lowest_at: Length::from_si(lowest_at),
            sag_below_chord: Length::from_si(sag),
            sag_below_near: Length::from_si(-lowest.z),
            pieces: pieces
                .into_iter()
                .map(|(stretched, most)| ChainPieceState {
                    stretched_length: Length::from_si(stretched),
                    greatest_tension: Force::from_si(most),
                })
                .collect(),
            loads: loads.collect(),
            profile,
            residual: Ratio::from_si(residual),
            iterations: self.state.iterations,
            wind_residual: Ratio::from_si(self.links.1.residual),
            wind_passes: self.links.1.passes,
            notes,
        })
    }

    /// Rest arc lengths at equal spacing, with joints and loads among them.
    fn places_m(&self, samples: usize) -> Vec<f64> {
        let total = self.links.length_m();
        let step = total / (samples - 1) as f64;
        let equal = (0..samples).map(|i| (i as f64 * step).min(total));
        let joints = self.links.0.iter().map(|link| link.from_m);
        let mut places: Vec<f64> = equal.chain(joints).chain([total]).collect();
        places.sort_by(f64::total_cmp);
        places.dedup();
        places
    }
}
