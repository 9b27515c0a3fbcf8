import type { Quantity, QuantityLike } from "../quantity.js";

/** A point or a vector: x, y and z. */
export type Point = [QuantityLike, QuantityLike, QuantityLike];
/** The same as a result. */
export type Vector = [Quantity, Quantity, Quantity];

/** One leg of an anchor; it gives its stiffness or its axial rigidity. */
export interface Leg {
  name: string;
  fixing: Point;
  rest_length: QuantityLike;
  stiffness?: QuantityLike;
  axial_rigidity?: QuantityLike;
  strength?: QuantityLike;
}

/** Legs to one free knot, and the pull on it. */
export interface Anchor {
  legs: Leg[];
  pull: Point;
}

/** An anchor at rest under its pull. */
export interface Equilibrium {
  master_point: Vector;
  legs: {
    name: string;
    tension: Quantity;
    share: Quantity;
    direction: [number, number, number];
    length: Quantity;
    slack: boolean;
    factor?: Quantity;
  }[];
  v_angle?: Quantity;
  residual: number;
  iterations: number;
}

/** What the loss of a leg does. */
export interface LegLoss {
  before: Equilibrium;
  after: Equilibrium;
  travel: Vector;
  extension: Quantity;
  energy_released: Quantity;
  speed: Quantity;
  peaks: { name: string; tension: Quantity; dynamic_factor?: Quantity; factor?: Quantity }[];
  residual: number;
}

/** Rest of a free master point: its position, tension and share of each leg. */
export function equilibrium(input: Anchor): Equilibrium;

/** Cuts a leg: new rest, extension, energy released, and the peaks of the legs that are left. */
export function lose_leg(input: {
  anchor: Anchor;
  leg: string;
  effective_mass: QuantityLike;
}): LegLoss;

/** Tension of each of two equal legs over the pull, for the angle between them. */
export function v_angle_factor(input: { v_angle: QuantityLike }): Quantity;

/** Tension of a sling leg over the vertical load on it, for its angle above the horizontal. */
export function sling_factor(input: { angle: QuantityLike }): Quantity;
