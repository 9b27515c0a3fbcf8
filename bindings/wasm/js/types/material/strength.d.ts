import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

/** What takes from the strength. */
export type DeratingKind = "knot" | "bend" | "splice" | "sewn" | "wet" | "age" | "heat" | "other";

/** Fraction of the strength that is left, as a range, with its source. */
export interface Derating {
  kind: DeratingKind;
  name: string;
  low: RatioLike;
  high: RatioLike;
  source: string;
}

/** A published knot factor. */
export interface KnotFactor extends Derating {
  low: Quantity;
  high: Quantity;
}

/** Strength left at one place, with the least and the greatest of each factor. */
export interface DeratedStrength {
  low: Quantity;
  high: Quantity;
}

/** Strength left at one place: breaking strength times the factors that act there. */
export function derated(input: {
  breaking_strength: QuantityLike;
  at_place: readonly Derating[];
  everywhere: readonly Derating[];
}): DeratedStrength;

/** Published fractions of the strength that knots leave, as ranges with their sources. */
export function knot_factors(): KnotFactor[];

/** A strength and the basis of its rating. */
export type Rating =
  | { minimum: { strength: QuantityLike } }
  | { three_sigma: { mean: QuantityLike; deviation: QuantityLike } }
  | { working_load_limit: { limit: QuantityLike; factor: RatioLike } };

/** Factors of knots, splices, sewn ends, water, age and bends, as ranges with their sources. */
export function strength_factors(): KnotFactor[];

/** What a bend leaves of wire rope, for the diameter of the bend over that of the rope. */
export function wire_rope_bend(input: { bend_ratio: RatioLike }): KnotFactor;

/** The breaking strength that a rating stands for, as a range. */
export function rated_strength(rating: Rating): DeratedStrength;

/** What is left of a rated strength at one place, with the sources of its factors. */
export function strength_left(input: {
  rating: Rating;
  at_place?: readonly Derating[];
  everywhere?: readonly Derating[];
}): {
  low: Quantity;
  high: Quantity;
  rated: DeratedStrength;
  low_factor: Quantity;
  high_factor: Quantity;
  sources: string[];
};
