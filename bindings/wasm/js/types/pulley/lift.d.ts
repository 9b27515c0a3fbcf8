import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

/** The jerk of a load on a line when its haul starts, stops or changes by `speed`. */
export function haul_jerk(input: {
  mass: QuantityLike;
  stiffness: QuantityLike;
  speed: QuantityLike;
}): {
  greatest: Quantity;
  load_factor: Quantity;
  least: Quantity;
  slack_for: Quantity;
  period: Quantity;
};

/** The pull that draws a body up over the rock at the lip. */
export function pull_over_lip(lip: {
  mass: QuantityLike;
  slope: QuantityLike;
  body_friction: RatioLike;
  /** Of the rope above the slope. */
  rope_angle: QuantityLike;
  edge_friction: RatioLike;
  edge_turn: QuantityLike;
}): {
  at_body: Quantity;
  behind_edge: Quantity;
  on_rock: Quantity;
  best_angle: Quantity;
  least: Quantity;
  worst_slope: Quantity;
};

/** What the rope feels of a climb. */
export interface ClimbBounce {
  own_period: Quantity;
  tuning: Quantity;
  amplification: Quantity;
  greatest: Quantity;
  least: Quantity;
}

/** How much a person who climbs in a rhythm bounces on the rope. */
export function climb_bounce(climb: {
  mass: QuantityLike;
  stiffness: QuantityLike;
  damping_ratio: RatioLike;
  period: QuantityLike;
  amplitude: QuantityLike;
}): ClimbBounce;

/** The swing of a load that hangs free on a rope that gets shorter; the arrays go together. */
export function lifted_pendulum(swing: {
  from: QuantityLike;
  to: QuantityLike;
  speed: QuantityLike;
  angle: QuantityLike;
}): {
  time: Quantity;
  greatest_angle: Quantity;
  last_angle: Quantity;
  slow_angle: Quantity;
  widest: Quantity;
  load_factor: Quantity;
  turn_s: Float64Array;
  turn_rad: Float64Array;
  turn_length_m: Float64Array;
};
