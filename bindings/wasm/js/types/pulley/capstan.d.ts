import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Friction } from "./loss.js";
import type { Note } from "./network.js";

/** Least and greatest force that hold. */
export interface Interval {
  low: Quantity;
  high: Quantity;
}

/** Ratio of the tensions on both sides of a bar when the rope is about to slide. */
export function capstan_ratio(input: { mu: RatioLike; wrap: QuantityLike }): Quantity;

/** Least and greatest force on the free side that hold a load over a bar. */
export function capstan_hold(input: {
  load: QuantityLike;
  mu: RatioLike;
  wrap: QuantityLike;
}): Interval;

/** Friction that a measured tension ratio implies, the inverse of `capstan_ratio`. */
export function implied_mu(input: { ratio: RatioLike; wrap: QuantityLike }): Quantity;

/** A rope over edges in space. */
export interface RopeOverEdges {
  load: QuantityLike;
  from: [QuantityLike, QuantityLike, QuantityLike];
  edges: {
    name: string;
    at: [QuantityLike, QuantityLike, QuantityLike];
    friction: Friction;
    /** Whole turns besides. */
    turns?: number;
  }[];
  to: [QuantityLike, QuantityLike, QuantityLike];
}

/** What a rope over edges gives. */
export interface EdgesHold {
  hold: Interval;
  total_wrap: Quantity;
  ratio: Quantity;
  edges: {
    name: string;
    wrap: Quantity;
    efficiency: Quantity;
    raising: Quantity;
    raising_xyz: [Quantity, Quantity, Quantity];
    lowering: Quantity;
    heat_raising_j_per_m: number;
    heat_lowering_j_per_m: number;
  }[];
  notes: Note[];
}

/** What holds and raises a load by a rope over edges in space, what each edge carries, heat per metre. */
export function over_edges(rope: RopeOverEdges): EdgesHold;
