import type { BundleLine } from "../line.js";
import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Jump, Outlook, PlaceLike } from "../swing.js";

/** A jumper who is to be drawn in. */
export interface WayBack {
  /** Lines that hold the ring, as in `line.solve_bundle`; none for a ring that does not move. */
  lines: BundleLine[];
  ring_mass: QuantityLike;
  ropes: {
    name: string;
    rest_length: QuantityLike;
    weight: QuantityLike;
    stretch: Record<string, unknown>;
  }[];
  mass: QuantityLike;
  ring: readonly QuantityLike[];
  body: readonly QuantityLike[];
  pulley: readonly QuantityLike[];
  lip: readonly QuantityLike[];
  lip_friction: RatioLike;
  haul_weight: QuantityLike;
  haul_stretch: Record<string, unknown>;
  walls?: { name: string; points: PlaceLike[] }[];
  body_radius: QuantityLike;
  steps: number;
}

/** The way; the arrays go together, from far out to the lip. */
export interface WayPlaces {
  rope_out_m: Float64Array;
  pull_n: Float64Array;
  behind_lip_n: Float64Array;
  lip_turn_rad: Float64Array;
  below_level_rad: Float64Array;
  x_m: Float64Array;
  y_m: Float64Array;
  z_m: Float64Array;
  ring_x_m: Float64Array;
  ring_y_m: Float64Array;
  ring_z_m: Float64Array;
  jump_ropes_n: Float64Array;
  clearance_m: Float64Array;
  greatest: Quantity;
  greatest_at: Quantity;
  slack_from: Quantity | null;
  work: Quantity;
}

/** The way of a jumper who is drawn in to the lip, place by place. */
export function way_back(way: WayBack): WayPlaces;

/** The haul rope fails at a place of a way: the jumper swings out again from rest. */
export function haul_fails(input: { jump: Jump; way: WayPlaces; at: number }): {
  rope_out: Quantity;
  outlook: Outlook;
};
