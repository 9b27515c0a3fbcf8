import type { BundleLine } from "./line.js";
import type { Quantity, QuantityLike, RatioLike } from "./quantity.js";
import type { Jump, Outlook, PlaceLike } from "./swing.js";

/** How a sheave loses tension: one efficiency, axle friction by wrap, or rope sliding on a bar. */
export type Friction =
  | { law: "fixed"; efficiency: RatioLike }
  | { law: "axle"; efficiency_180: RatioLike }
  | { law: "capstan"; mu: RatioLike };

/** Bodies and the ropes that run over them. */
export interface System {
  bodies: {
    name: string;
    kind: "anchor" | "moving" | "load" | "hand";
    position: [QuantityLike, QuantityLike, QuantityLike];
    travel?: [number, number, number];
  }[];
  ropes: {
    name: string;
    from: string;
    over?: { on: string; friction: Friction; wrap?: QuantityLike }[];
    to: string;
  }[];
  haul?: [number, number, number];
}

/** Least and greatest force that hold. */
export interface Interval {
  low: Quantity;
  high: Quantity;
}

/** Forces for one sense of motion. */
export interface State {
  hand: Quantity;
  parts: { rope: string; from: string; to: string; tension: Quantity }[];
  bodies: { name: string; force: [Quantity, Quantity, Quantity]; resultant: Quantity }[];
}

/** What a system gives. */
export interface Solution {
  ideal_advantage: Quantity;
  actual_advantage: Quantity;
  efficiency: Quantity;
  hold: Interval;
  frictionless: Quantity;
  raising: State;
  lowering?: State;
  travel: { name: string; per_hand: Quantity }[];
  residual: number;
  notes: ({ note: "sheave_stands"; rope: string; on: string } | { note: "holds_itself" })[];
}

/** Solves a pulley system: advantages, forces to raise, hold and lower, tensions, travel. */
export function solve(input: { system: System; load: QuantityLike }): Solution;

/** Ordinary systems, by what they are. */
export type Ordinary =
  | "redirect"
  | "two_to_one"
  | "three_to_one"
  | "four_to_one"
  | "five_to_one"
  | "six_to_one"
  | "nine_to_one";

/** An ordinary system with parallel ropes and one kind of sheave, for `solve`. */
export function ordinary(input: { system: Ordinary; friction: Friction }): System;

/** Block-and-tackle stages that haul on one another, from the load to the hand, for `solve`. */
export function tackle(input: { parts: number[]; redirect: boolean; friction: Friction }): System;

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

/** A haul and the people for it. */
export interface Haul {
  system: Ordinary;
  friction: Friction;
  load: QuantityLike;
  lift: QuantityLike;
  throw: QuantityLike;
  back_slip?: QuantityLike;
  line_length?: QuantityLike;
  line_rigidity?: QuantityLike;
  system_rigidity?: QuantityLike;
  people: number;
  pull_each: QuantityLike;
  hand_speed: QuantityLike;
  reset_time: QuantityLike;
}

/** What a haul takes. */
export interface HaulWork {
  system: Ordinary;
  ideal_advantage: Quantity;
  actual_advantage: Quantity;
  hand_force: Quantity;
  holding_force: Quantity;
  people_needed: number;
  enough: boolean;
  strokes: number;
  resets: number;
  lost_each_stroke: Quantity;
  line_stretch: Quantity;
  rope_through_hands: Quantity;
  rope_in_system: Quantity;
  time: Quantity;
  work: Quantity;
  raised: Quantity;
  stored: Quantity;
  lost_at_resets: Quantity;
  lost_at_sheaves: Quantity;
  bodies: { name: string; force: [Quantity, Quantity, Quantity]; resultant: Quantity }[];
}

/** Strokes, resets, rope, time and work of a haul with an ordinary system. */
export function haul_work(haul: Haul): HaulWork;

/** One lift with several systems, and the least that the people can pull. */
export function compare_hauls(input: { haul: Haul; systems: readonly Ordinary[] }): {
  each: HaulWork[];
  least: Ordinary | null;
};

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
