import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

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
