import type { Friction } from "../pulley/loss.js";
import type { Quantity, QuantityLike } from "../quantity.js";
import type { Point, Vector } from "./legs.js";

/** A loop of cordage through points and, between each two of them, through the master connector. */
export interface SelfAdjusting {
  /** Two to four, in the order in which the loop visits them. */
  points: readonly { name: string; position: Point; limiter?: QuantityLike }[];
  loop_length: QuantityLike;
  axial_rigidity: QuantityLike;
  strength?: QuantityLike;
  friction_at_points?: Friction;
  friction_at_master?: Friction;
  captive: boolean;
  pull: Point;
}

/** A way of the master point after a loss; absent where the loop runs through whole. */
export interface AdjustedDrop {
  held: boolean;
  drop?: {
    before: Vector;
    after: Vector;
    extension: Quantity;
    free_drop: Quantity;
    energy_released: Quantity;
    speed: Quantity;
    tension: Quantity;
    peak_tension: Quantity;
    dynamic_factor: Quantity;
    factor?: Quantity;
    points: { name: string; force: Quantity; peak: Quantity }[];
    residual: number;
  };
}

/** How the loop shares a pull: evenly without friction, and the band that friction allows. */
export function adjusted_rest(anchor: SelfAdjusting): {
  master_point: Vector;
  tension: Quantity;
  stretch: Quantity;
  points: {
    name: string;
    force: Quantity;
    share: Quantity;
    share_low: Quantity;
    share_high: Quantity;
    greatest_force: Quantity;
    length: Quantity;
    knot_at_master: boolean;
  }[];
  master_strays: Quantity;
  greatest_tension: Quantity;
  factor?: Quantity;
  patterns: number;
  residual: number;
  iterations: number;
};

/** How master point and shares move when the pull swings over a cone. */
export function adjusted_cone(cone: {
  anchor: SelfAdjusting;
  half_angle: QuantityLike;
  rings: number;
  around: number;
}): {
  off_rad: Float64Array;
  around_rad: Float64Array;
  x_m: Float64Array;
  y_m: Float64Array;
  z_m: Float64Array;
  tension_n: Float64Array;
  greatest_tension_n: Float64Array;
  points: { name: string; share: Float64Array; share_low: Float64Array; share_high: Float64Array }[];
  farthest: Quantity;
  worst_share: number;
  worst_point: string;
  worst_at: number;
};

/** Takes a point away: drop, energy and peaks, with the limiter knots and without. */
export function adjusted_loss(input: {
  anchor: SelfAdjusting;
  point: string;
  effective_mass: QuantityLike;
}): { with_knots?: AdjustedDrop; without_knots: AdjustedDrop };
