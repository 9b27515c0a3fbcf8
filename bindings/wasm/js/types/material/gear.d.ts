import type { Quantity, QuantityLike } from "../quantity.js";

/** Kinds of gear. */
export type GearKind =
  | "accessory_cord"
  | "tape"
  | "sewn_sling"
  | "dynamic_rope"
  | "low_stretch_rope"
  | "connector"
  | "harness"
  | "rope_clamp"
  | "rock_anchor"
  | "ice_screw"
  | "piton"
  | "friction_anchor"
  | "chock"
  | "pulley"
  | "lanyard"
  | "anchor_device"
  | "energy_absorber"
  | "wire_rope_sling"
  | "textile_sling";

/** One limit of a standard: a force, a ratio, a length or a count. */
export interface StandardLimit {
  key: string;
  standard: string;
  edition?: string;
  kind: GearKind;
  what: string;
  bound: "at_least" | "at_most";
  force?: Quantity;
  ratio?: Quantity;
  length?: Quantity;
  count?: number;
  certainty: "seen" | "partly_seen" | "memory" | "memory_low";
}

/** One thing about a rating that may be wrong. */
export interface RatingFinding {
  rule: "below_minimum" | "far_above" | "unit_slip" | "working_load_limit" | "no_minimum";
  because: string;
  would_be?: Quantity;
}

/** Limits of published standards, each with its edition and how sure the record is. */
export function gear_limits(): StandardLimit[];

/** Whether the rating of a piece of gear is plausible for its kind; no findings are no permission. */
export function rating_check(rating: {
  kind: GearKind;
  strength: QuantityLike;
  /** Key of the one limit to compare with. */
  limit?: string;
  /** Of accessory cord. */
  diameter?: QuantityLike;
}): {
  findings: RatingFinding[];
  reached: StandardLimit[];
  not_reached: StandardLimit[];
  minimum_for_diameter?: Quantity;
};
