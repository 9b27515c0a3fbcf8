//! Short words to write a system with.

use super::super::Friction;
use super::{Body, BodyKind, Rope, Sheave, System, Towards};
use crate::quantity::{Angle, Length, Quantity, Ratio};

/// A place: x along the span, y to the left, z up.
type Place = [Length; 3];

impl System {
    /// A system without bodies, to be built up.
    ///
    /// # Example
    /// ```
    /// use tautwork::pulley::{Friction, Rope, System, Towards, solve};
    /// use tautwork::quantity::{ReadForce, ReadRatio, Words};
    /// let at = |z: f64| [0.0.meters(), 0.0.meters(), z.meters()];
    /// let pulley = Friction::Axle { efficiency_180: 0.83.ratio() };
    /// // A Z-shaped 3:1 with its two grabs: one on the travelling block, one on the anchor's sheave.
    /// let z = System::new()
    ///     .anchor("tree", at(0.0))
    ///     .load("person", at(-20.0))
    ///     .block("block", at(-5.0))
    ///     .hand("hands", at(1.0))
    ///     .rope(
    ///         Rope::new("rope", "person", "hands")
    ///             .grab("block", Towards::Start)
    ///             .capture("tree", pulley, Towards::Start)
    ///             .over("block", pulley),
    ///     );
    /// let result = solve(&z, 1.0.kilonewtons())?;
    /// assert!((result.ideal_advantage.in_ratio() - 3.0).abs() < 1e-12);
    /// assert!((result.actual_advantage.in_ratio() - 2.5189).abs() < 1e-12);
    /// // Hands off: the tree holds the person alone.
    /// let held = result.held.expect("the capture holds");
    /// assert!((held.bodies[0].resultant.in_kilonewtons() - 1.0).abs() < 1e-9);
    /// # Ok::<(), tautwork::pulley::PulleyError>(())
    /// ```
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a fixed point.
    #[must_use]
    pub fn anchor(self, name: &str, position: Place) -> Self {
        self.body(name, BodyKind::Anchor, position, None)
    }

    /// Adds a body that moves in the haul direction, as ropes pull it.
    #[must_use]
    pub fn block(self, name: &str, position: Place) -> Self {
        self.body(name, BodyKind::Moving, position, None)
    }

    /// Adds a body that moves along `travel`.
    #[must_use]
    pub fn block_along(self, name: &str, position: Place, travel: [f64; 3]) -> Self {
        self.body(name, BodyKind::Moving, position, Some(travel))
    }

    /// Adds the load.
    #[must_use]
    pub fn load(self, name: &str, position: Place) -> Self {
        self.body(name, BodyKind::Load, position, None)
    }

    /// Adds a load that moves along `travel`.
    #[must_use]
    pub fn load_along(self, name: &str, position: Place, travel: [f64; 3]) -> Self {
        self.body(name, BodyKind::Load, position, Some(travel))
    }

    /// Adds the hand.
    #[must_use]
    pub fn hand(self, name: &str, position: Place) -> Self {
        self.body(name, BodyKind::Hand, position, None)
    }

    /// Adds a rope.
    #[must_use]
    pub fn rope(mut self, rope: Rope) -> Self {
        self.ropes.push(rope);
        self
    }

    /// Sets the direction in which load and blocks move.
    #[must_use]
    pub fn haul(mut self, direction: [f64; 3]) -> Self {
        self.haul = Some(direction);
        self
    }

    fn body(
        mut self,
        name: &str,
        kind: BodyKind,
        position: Place,
        travel: Option<[f64; 3]>,
    ) -> Self {
        self.bodies.push(Body { name: name.to_owned(), kind, position, travel });
        self
    }
}

impl Rope {
    /// A rope from body to body; what it runs over is added in order.
    #[must_use]
    pub fn new(name: &str, from: &str, to: &str) -> Self {
        let (name, from, to) = (name.to_owned(), from.to_owned(), to.to_owned());
        Self { name, from, over: Vec::new(), to }
    }

    /// Runs over a sheave, a carabiner or an edge on a body, turning as the geometry says.
    #[must_use]
    pub fn over(self, on: &str, friction: Friction) -> Self {
        self.turn(on, friction, None, None)
    }

    /// Runs around with a wrap that the geometry cannot show, as turns on a bar.
    #[must_use]
    pub fn around(self, on: &str, friction: Friction, wrap: Angle) -> Self {
        self.turn(on, friction, Some(wrap), None)
    }

    /// Is gripped by a rope grab on a body, which holds rope that would run towards that end and costs
    /// nothing when it slides.
    #[must_use]
    pub fn grab(self, on: &str, holds: Towards) -> Self {
        self.turn(on, Friction::Fixed { efficiency: Ratio::from_si(1.0) }, None, Some(holds))
    }

    /// Runs over a sheave that holds rope that would run towards that end: a progress capture.
    #[must_use]
    pub fn capture(self, on: &str, friction: Friction, holds: Towards) -> Self {
        self.turn(on, friction, None, Some(holds))
    }

    fn turn(
        mut self,
        on: &str,
        friction: Friction,
        wrap: Option<Angle>,
        grab: Option<Towards>,
    ) -> Self {
        self.over.push(Sheave { on: on.to_owned(), friction, wrap, grab });
        self
    }
}
