import type { Quantity, QuantityLike } from "../quantity.js";
import type { Point, Vector } from "./legs.js";

/** An anchor of fixed points, junctions and legs, and the pull on one of its junctions. */
export interface AnchorSystem {
  fixed: readonly { name: string; position: Point; strength?: QuantityLike }[];
  junctions: readonly { name: string; near: Point }[];
  legs: readonly {
    name: string;
    /** A junction or a fixed point. */
    from: string;
    to: string;
    rest_length: QuantityLike;
    /** One behind the other; one at least gives its stiffness. */
    parts: readonly { name: string; stiffness?: QuantityLike; strength?: QuantityLike }[];
  }[];
  pull_at: string;
  pull: Point;
  /** The line that pulls: after a loss the pull falls as the junction moves with it. */
  line?: { stiffness: QuantityLike; length: QuantityLike };
}

/** A system at rest. */
export interface SystemRest {
  legs: {
    name: string;
    tension: Quantity;
    share?: Quantity;
    length: Quantity;
    slack: boolean;
    factor?: Quantity;
    governed_by?: string;
  }[];
  fixed: { name: string; force: Vector; size: Quantity; factor?: Quantity }[];
  junctions: { name: string; position: Vector; loose: boolean }[];
  /** That given, or after a loss what a line is left with. */
  pull: Vector;
  least_factor?: Quantity;
  weakest?: string;
  residual: number;
  iterations: number;
}

/** What the loss of something does. */
export interface SystemLoss {
  lost: string[];
  stages: { broke: string[] }[];
  held: boolean;
  after?: SystemRest;
  extension?: Quantity;
  energy_released?: Quantity;
  overshoot?: {
    extension: Quantity;
    peaks: { name: string; tension: Quantity; dynamic_factor?: Quantity; factor?: Quantity }[];
    least_factor?: Quantity;
    weakest?: string;
    residual: number;
  };
}

/** Rest of an anchor system: tension, share and factor of each leg, force on each fixed point. */
export function system_rest(system: AnchorSystem): SystemRest;

/** Tensions, shares and factors of a system for a pull from each direction of a cone. */
export function pull_cone(cone: {
  /** With the pull in the middle of the cone. */
  system: AnchorSystem;
  half_angle: QuantityLike;
  rings: number;
  around: number;
}): {
  off_rad: Float64Array;
  around_rad: Float64Array;
  direction: Float64Array[];
  legs: { name: string; tension_n: Float64Array; share?: Float64Array }[];
  worst_tension_n: Float64Array;
  worst_leg: string[];
  use_of_strength: Float64Array;
  governed_by: string[];
  least_factor?: Quantity;
  worst_at: number;
};

/** What the loss of each leg and fixed point, and with `pairs` of each two, leaves. */
export function system_losses(input: { system: AnchorSystem; pairs: boolean }): {
  before: SystemRest;
  single: SystemLoss[];
  double: SystemLoss[];
  redundant: boolean;
};

/** The motion of the mass behind the pull after a loss, and what its jerk breaks. */
export function break_in_time(input: {
  system: AnchorSystem;
  lost: readonly string[];
  mass: QuantityLike;
  time: QuantityLike;
}): {
  events: { at: Quantity; broke: string }[];
  held: boolean;
  peaks: { name: string; tension: Quantity; at: Quantity; factor?: Quantity }[];
  extension: Quantity;
  speed: Quantity;
  energy_drift: number;
  t_s: Float64Array;
  way_m: Float64Array;
  worst_tension_n: Float64Array;
};
