import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { ChainLoad, ChainPiece, Vector, VectorLike } from "./solve.js";

/** A line with someone, or something, on it. */
export interface Walk {
  near: VectorLike;
  far: VectorLike;
  pieces: readonly ChainPiece[];
  loads?: readonly ChainLoad[];
  weight: QuantityLike;
}

/** Where the load is along the span: horizontally from the near anchor, or over the span. */
export type WalkPlace = { distance: QuantityLike } | { fraction: RatioLike };

/** The line with the load at one place. */
export interface WalkState {
  at: Quantity;
  position: Vector;
  below_chord: Quantity;
  tension_before: Quantity;
  tension_after: Quantity;
  tension_near: Quantity;
  tension_far: Quantity;
  pull_near: Vector;
  pull_far: Vector;
  slope_near: Quantity;
  slope_far: Quantity;
  rise_before: Quantity;
  rise_after: Quantity;
  hold: Quantity;
  residual: Quantity;
}

/** The line with the load at many places. */
export interface WalkEnvelope {
  at_m: Float64Array;
  x_m: Float64Array;
  z_m: Float64Array;
  below_chord_m: Float64Array;
  tension_near_n: Float64Array;
  tension_far_n: Float64Array;
  slope_near_rad: Float64Array;
  slope_far_rad: Float64Array;
  rise_before_rad: Float64Array;
  rise_after_rad: Float64Array;
  hold_n: Float64Array;
}

/** The line with someone standing on it: the feet hold the line. One answer for each equilibrium. */
export function stand(input: { walk: Walk; place: WalkPlace }): WalkState[];

/** The line with a pulley on it, and the least and the largest force that holds it there. */
export function roll(input: {
  walk: Walk;
  place: WalkPlace;
  friction: RatioLike;
}): { least: WalkState; most: WalkState };

/** Where a pulley comes to rest by itself: a range for every place of balance. */
export function roll_rests(input: {
  walk: Walk;
  friction: RatioLike;
}): { from: WalkState; to: WalkState; stable: boolean }[];

/** The line with the load at many places. */
export function walk_envelope(input: {
  walk: Walk;
  mode: "stands" | "rolls";
  count: number;
}): WalkEnvelope;
