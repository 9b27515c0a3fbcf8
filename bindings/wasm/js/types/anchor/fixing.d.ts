import type { Derating } from "../material/strength.js";
import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Point, Vector } from "./legs.js";

type Direction = readonly [number, number, number];

/** A rule for tension and shear at once. */
export type InteractionRule =
  | "linear"
  | "three_halves"
  | "five_thirds"
  | "quadratic"
  | "tri_linear"
  | "en1993_1_8"
  | "aisc_j3_7";

/** What a bolt resists, with the rule for both at once. */
export interface BoltLimits {
  tension: QuantityLike;
  shear: QuantityLike;
  rule: InteractionRule;
  reductions?: readonly { name: string; tension: RatioLike; shear: RatioLike }[];
}

/** How far a force uses up a bolt. */
export interface BoltUse {
  tension: Quantity;
  shear: Quantity;
  compression: Quantity;
  tension_resistance: Quantity;
  shear_resistance: Quantity;
  tension_ratio: Quantity;
  shear_ratio: Quantity;
  utilisation: Quantity;
  scale?: Quantity;
  source: string;
}

/** How a sling is used, by the standards' tables. */
export type SlingMode =
  | "straight"
  | "choked"
  | "basket_parallel"
  | "basket"
  | "two_legs"
  | "two_legs_choked"
  | "three_or_four_legs"
  | "three_or_four_legs_choked"
  | "endless_choked";

/** How a sling is tied. */
export type HitchForm =
  | "straight"
  | { choker: { choke_angle?: QuantityLike } }
  | { basket: { v_angle: QuantityLike } }
  | { girth: { choke_angle?: QuantityLike } }
  | {
      wrap: {
        pulled: number;
        v_angle: QuantityLike;
        knot: Derating;
        knot_wrap: QuantityLike;
        least_friction: RatioLike;
        greatest_friction: RatioLike;
      };
    };

/** Every rule for tension and shear at once, with its formula and its source. */
export function interaction_rules(): { rule: InteractionRule; formula: string; source: string }[];

/** Tension, shear and utilisation of a bolt, whose axis points out of the rock, under a force. */
export function bolt_use(input: { limits: BoltLimits; axis: Direction; force: Point }): BoltUse;

/** What bolts under a rigid plate carry: shear and torsion, tension and bending. */
export function bolt_group(group: {
  bolts: readonly {
    name: string;
    position: Point;
    axial_stiffness: QuantityLike;
    shear_stiffness: QuantityLike;
    limits?: BoltLimits;
  }[];
  normal: Direction;
  bearing?: readonly { position: Point; stiffness: QuantityLike }[];
  pull: Point;
  pull_at: Point;
}): {
  bolts: {
    name: string;
    tension: Quantity;
    shear: Quantity;
    shear_force: Vector;
    pressed: Quantity;
    use?: BoltUse;
  }[];
  bearing: Quantity[];
  pressed: "at_bolts" | "at_points";
  scale?: Quantity;
  first?: string;
  residual: number;
  iterations: number;
};

/** At what pull a boulder or block on sloping ground slides or tips, and which comes first. */
export function block_hold(block: {
  mass: QuantityLike;
  friction: RatioLike;
  slope: QuantityLike;
  center_behind_edge: QuantityLike;
  center_height: QuantityLike;
  pull: QuantityLike;
  pull_angle: QuantityLike;
  pull_height: QuantityLike;
  pull_behind_edge: QuantityLike;
}): {
  sliding?: Quantity;
  tipping?: Quantity;
  first?: "sliding" | "tipping";
  factor?: Quantity;
  normal_force: Quantity;
  friction_needed?: Quantity;
  ground_force_behind_edge?: Quantity;
  notes: ("slides_alone" | "tips_alone" | "pressed_fast")[];
};

/** Stress at the foot of a trunk from a sling, against the strength that the user gives. */
export function tree_stress(trunk: {
  diameter: QuantityLike;
  sling_height: QuantityLike;
  pull: QuantityLike;
  pull_angle: QuantityLike;
  strength: QuantityLike;
}): { bending: Quantity; axial: Quantity; greatest: Quantity; factor: Quantity };

/** Part of its rating as a choker that a sling keeps at an angle of choke. */
export function choke_angle_factor(input: { choke_angle: QuantityLike }): Quantity;

/** Factor of a sling's mode of use by EN 13414-1 and EN 1492, beside what statics gives. */
export function sling_mode_factor(input: {
  mode: SlingMode;
  angle_from_vertical: QuantityLike;
}): { factor: Quantity; by_statics: Quantity; source: string };

/** Greatest mass that a wire rope sling with a steel core lifts by EN 13414-1. */
export function wire_rope_sling_limit(input: {
  diameter: QuantityLike;
  rope_grade: QuantityLike;
  termination: RatioLike;
  mode_factor: RatioLike;
}): Quantity;

/** Strength range of a sling in a hitch, with every factor and its source. */
export function hitch_strength(hitch: {
  form: HitchForm;
  /** Of one part, pulled straight. */
  strength: QuantityLike;
  factors?: readonly Derating[];
}): {
  low: Quantity;
  high: Quantity;
  strands: number;
  factors: { name: string; low: Quantity; high: Quantity; source: string }[];
  notes: ("flat" | "any_choke_angle" | "knot_may_break_first")[];
};
