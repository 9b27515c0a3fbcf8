//! The states on the way from a bare line to the whole rig, and back.

use serde::{Deserialize, Serialize};

use crate::line::{
    BundleLine, Chain, ChainLoad, ElasticLine, LineError, Net, NetLine, Node, solve_bundle,
    solve_chain, solve_net,
};
use crate::material::Stretch;
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{
    Force, Invalid, Length, LineLoad, MaybeText, Quantity, Ratio, Text, Texts, Triple, print,
};

/// One stage of building or striking.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildingStage {
    /// Name.
    pub name: String,
    /// What stands.
    pub rig: StageKind,
}

/// What stands in a stage.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StageKind {
    /// One line without a ring, with any loads on it.
    Line(Chain),
    /// A person on the main line going out from the near anchor with other lines in tow.
    GoingOut(GoingOut),
    /// Lines tied to one ring.
    Ringed(RingedStage),
}

/// A person on the main line with lines in tow.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GoingOut {
    /// The main line; its near anchor is at the origin.
    pub main: ElasticLine,
    /// Weight of the person and what they carry.
    #[serde(with = "Text::<Force>")]
    pub person: Force,
    /// Where the person holds on to the main line: rest lengths from the near anchor. One state for each.
    #[serde(with = "Texts::<Length>")]
    pub at: Vec<Length>,
    /// Lines in tow, tied to the person.
    pub trailing: Vec<Trailing>,
}

/// A line from an anchor to the person.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trailing {
    /// Name.
    pub name: String,
    /// Its anchor.
    #[serde(with = "Triple::<Length>")]
    pub anchor: [Length; 3],
    /// How much more of it is paid out than of the main line from the near anchor to the person.
    #[serde(with = "Text::<Ratio>")]
    pub slack: Ratio,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Stretch.
    pub stretch: Stretch,
}

/// Lines tied to one ring, and the load on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RingedStage {
    /// Lines.
    pub lines: Vec<BundleLine>,
    /// Force on the ring: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub load: [Force; 3],
}

/// A line in a stage.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StageLine {
    /// Name; `main` for the line that the person is on, the name of the stage for a line alone.
    pub name: String,
    /// Tension at its near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at its far anchor; for a line in tow, at the person.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Largest tension.
    #[serde(with = "Text::<Force>")]
    pub greatest: Force,
    /// Largest vertical distance below the chord from anchor to anchor; none for a line in tow.
    #[serde(with = "MaybeText::<Length>")]
    pub sag_below_chord: Option<Length>,
    /// Height of its lowest point.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
}

/// A stage at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StageState {
    /// Name of the stage.
    pub name: String,
    /// Where the person is, in rest length from the near anchor; none in other stages.
    #[serde(with = "MaybeText::<Length>")]
    pub at: Option<Length>,
    /// Where the person or the ring is; none for a line alone.
    pub load_point: Option<Place>,
    /// Lines.
    pub lines: Vec<StageLine>,
    /// Height of the lowest point of all.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
    /// Residual of the solve, as of the function behind it.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
}

/// A point: along the span, to the left, up.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Place(#[serde(with = "Triple::<Length>")] pub [Length; 3]);

/// Tensions, sags and lowest points of named stages, one after the other; the other way round for
/// striking.
///
/// Each is at rest by itself: Eq. (3) for a line, Eq. (14) for a person with lines in tow and for a ring.
///
/// # Errors
/// [`LineError::At`] with the index of the stage: a person off the line or values out of range; else as
/// [`solve_chain`], [`solve_net`] and [`solve_bundle`].
///
/// # Example
/// ```
/// use tautwork::line::{BuildingStage, ElasticLine, GoingOut, StageKind, building_states};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// let main = ElasticLine {
///     span: 6.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 10.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e9.newtons())?,
/// };
/// let out = GoingOut { main, person: 1000.0.newtons(), at: vec![5.0.meters()], trailing: vec![] };
/// let stage = |out| BuildingStage { name: "out".to_owned(), rig: StageKind::GoingOut(out) };
/// // Two halves of 5 m over 6 m: 4 m of sag, 625 N.
/// let states = building_states(&[stage(out.clone())])?;
/// assert!((states[0].lines[0].greatest.in_newtons() - 625.0).abs() < 1e-2);
/// assert!((states[0].lowest.in_meters() + 4.0).abs() < 1e-5);
/// let off = GoingOut { at: vec![11.0.meters()], ..out };
/// assert!(building_states(&[stage(off)]).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn building_states(stages: &[BuildingStage]) -> Result<Vec<StageState>, LineError> {
    let mut states = Vec::new();
    for (i, stage) in stages.iter().enumerate() {
        let within = |e: LineError| e.at(i);
        match &stage.rig {
            StageKind::Line(chain) => states.push(alone(&stage.name, chain).map_err(within)?),
            StageKind::GoingOut(out) => {
                for at in &out.at {
                    states.push(going_out(&stage.name, out, *at).map_err(within)?);
                }
            }
            StageKind::Ringed(ringed) => {
                states.push(tied(&stage.name, ringed).map_err(within)?);
            }
        }
    }
    Ok(states)
}

fn greatest(tensions: impl IntoIterator<Item = Force>) -> Force {
    tensions.into_iter().fold(Force::from_si(0.0), |a, b| if b > a { b } else { a })
}

fn lowest(heights: impl IntoIterator<Item = Length>) -> Length {
    let least = heights.into_iter().map(Quantity::si).fold(f64::INFINITY, f64::min);
    Length::from_si(if least.is_finite() { least } else { 0.0 })
}

fn line_state(name: &str, chain: &Chain) -> Result<(StageLine, Ratio), LineError> {
    let solved = solve_chain(chain)?;
    let loads = solved.loads.iter().flat_map(|l| [l.tension_before, l.tension_after]);
    let along = solved.profile.tension_n.iter().copied().map(Force::from_si);
    let line = StageLine {
        name: name.to_owned(),
        tension_near: solved.tension_near,
        tension_far: solved.tension_far,
        greatest: greatest(loads.chain(along).chain([solved.tension_near, solved.tension_far])),
        sag_below_chord: Some(solved.sag_below_chord),
        lowest: solved.lowest[2],
    };
    Ok((line, solved.residual))
}

fn alone(name: &str, chain: &Chain) -> Result<StageState, LineError> {
    let (line, residual) = line_state(name, chain)?;
    Ok(StageState {
        name: name.to_owned(),
        at: None,
        load_point: None,
        lowest: line.lowest,
        lines: vec![line],
        residual,
    })
}

fn tied(name: &str, ringed: &RingedStage) -> Result<StageState, LineError> {
    let solved = solve_bundle(&ringed.lines, ringed.load)?;
    let lines: Vec<StageLine> = solved
        .lines
        .iter()
        .zip(&ringed.lines)
        .map(|(state, line)| StageLine {
            name: state.name.clone(),
            tension_near: state.tension_near,
            tension_far: state.tension_far,
            greatest: greatest([
                state.tension_near,
                state.tension_ring_near,
                state.tension_ring_far,
                state.tension_far,
            ]),
            sag_below_chord: Some(state.sag_below_chord),
            lowest: line.near[2] - state.sag_below_near,
        })
        .collect();
    Ok(StageState {
        name: name.to_owned(),
        at: None,
        load_point: Some(Place(solved.ring)),
        lowest: lowest(lines.iter().map(|l| l.lowest)),
        lines,
        residual: solved.residual,
    })
}

/// The net of the person and all lines; then the main line once more with what the person puts on it,
/// for its sag.
fn going_out(name: &str, out: &GoingOut, at: Length) -> Result<StageState, LineError> {
    let (span_m, rise_m) = (non_negative("span", out.main.span)?, finite("rise", out.main.rise)?);
    let rest_m = positive("rest_length", out.main.rest_length)?;
    let person_n = non_negative("person", out.person)?;
    let at_m = positive("at", at)?;
    if at_m >= rest_m {
        return Err(LineError::Invalid(Invalid::new(
            "at",
            print(at),
            format!("on the main line, below {}", print(out.main.rest_length)),
        )));
    }
    let zero = Length::from_si(0.0);
    let none = [Force::from_si(0.0); 3];
    let down = [0.0, 0.0, -person_n].map(Force::from_si);
    let share = at_m / rest_m;
    let guess = [share * span_m, 0.0, share * rise_m - 0.05 * span_m].map(Length::from_si);
    let node =
        |name: &str, position, fixed, load| Node { name: name.to_owned(), position, fixed, load };
    let mut net = Net {
        nodes: vec![
            node("near", [zero; 3], true, none),
            node("far", [out.main.span, zero, out.main.rise], true, none),
            node("person", guess, false, down),
        ],
        lines: vec![],
    };
    let line = |name: String, from: &str, length_m: f64, weight, stretch: &Stretch| NetLine {
        name,
        from: from.to_owned(),
        to: "person".to_owned(),
        rest_length: Length::from_si(length_m),
        weight,
        stretch: stretch.clone(),
    };
    let main = &out.main;
    net.lines.push(line("near half".to_owned(), "near", at_m, main.weight, &main.stretch));
    net.lines.push(line("far half".to_owned(), "far", rest_m - at_m, main.weight, &main.stretch));
    for (i, trailing) in out.trailing.iter().enumerate() {
        let within = |e: Invalid| LineError::Invalid(e.within(&format!("trailing[{i}]")));
        let slack = finite("slack", trailing.slack).map_err(within)?;
        let paid_out = Length::from_si(at_m * (1.0 + slack));
        positive("length paid out", paid_out).map_err(within)?;
        let anchor = format!("anchor {i}");
        net.nodes.push(node(&anchor, trailing.anchor, true, none));
        let (weight, stretch) = (trailing.weight, &trailing.stretch);
        net.lines.push(line(format!("trailing {i}"), &anchor, paid_out.si(), weight, stretch));
    }
    let solved = solve_net(&net)?;
    let mut pull = down;
    for state in &solved.lines[2..] {
        pull = [0, 1, 2].map(|axis| pull[axis] + state.pull_to[axis]);
    }
    let chain = Chain::of(main, vec![ChainLoad { at, force: pull }]);
    let mut lines = vec![line_state("main", &chain)?.0];
    for (trailing, state) in out.trailing.iter().zip(&solved.lines[2..]) {
        lines.push(StageLine {
            name: trailing.name.clone(),
            tension_near: state.tension_from,
            tension_far: state.tension_to,
            greatest: greatest([state.tension_from, state.tension_to]),
            sag_below_chord: None,
            lowest: state.lowest[2],
        });
    }
    Ok(StageState {
        name: name.to_owned(),
        at: Some(at),
        load_point: Some(Place(solved.nodes[2].position)),
        lowest: lowest(lines.iter().map(|l| l.lowest)),
        lines,
        residual: solved.residual,
    })
}
