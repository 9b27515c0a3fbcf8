import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

/** How long a rope must hang without tension before the next jump. */
export function rope_recovery(rope: {
  solid: { long_term: QuantityLike; arm: QuantityLike; relaxation_time: QuantityLike };
  /** Strain of its damper when it is let go; at most the greatest strain of the rope. */
  strain: RatioLike;
  /** Strain that may be left. */
  left: RatioLike;
}): { time_constant: Quantity; at_once: Quantity; time: Quantity };

/** How much a rub wears, and how often it may be done before the rigger's rule retires the part. */
export function rub_wear(rub: {
  contact_n: readonly number[] | Float64Array;
  travel_m: readonly number[] | Float64Array;
  friction?: RatioLike;
  /** Force times travel at which the rigger retires the part. */
  retire_at?: QuantityLike;
  /** Force times travel borne before. */
  done?: QuantityLike;
}): {
  travel: Quantity;
  greatest_contact: Quantity;
  force_travel: Quantity;
  work: Quantity | null;
  jumps_left: number | null;
};
