import type { Quantity, QuantityLike } from "../quantity.js";
import type { Interval } from "./capstan.js";
import type { Friction } from "./loss.js";

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
    over?: {
      on: string;
      friction: Friction;
      wrap?: QuantityLike;
      /** Holds rope that would run towards this end: a rope grab, a progress capture. */
      grab?: "start" | "end";
    }[];
    to: string;
  }[];
  haul?: [number, number, number];
}

/** Forces for one sense of motion. */
export interface State {
  hand: Quantity;
  parts: { rope: string; from: string; to: string; tension: Quantity }[];
  bodies: { name: string; force: [Quantity, Quantity, Quantity]; resultant: Quantity }[];
}

/** What to know about a result. */
export type Note =
  | { note: "sheave_stands"; rope: string; on: string }
  | { note: "open_to_lower"; rope: string; on: string }
  | { note: "far_from_half_turn"; rope: string; on: string }
  | { note: "aside"; body: string; force: Quantity }
  | { note: "holds_itself" };

/** What a system gives. */
export interface Solution {
  ideal_advantage: Quantity;
  actual_advantage: Quantity;
  efficiency: Quantity;
  hold: Interval;
  frictionless: Quantity;
  raising: State;
  lowering?: State;
  /** Hands off, held by grabs alone; absent if none holds. */
  held?: State;
  travel: { name: string; per_hand: Quantity }[];
  turns: { rope: string; on: string; wrap: Quantity; efficiency: Quantity; holds: boolean }[];
  /** How far one stroke goes; absent if nothing comes together. */
  throw?: { hand: Quantity; load: Quantity; rope: string; from: string; to: string };
  residual: number;
  notes: Note[];
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
  | "nine_to_one"
  | "simple_four"
  | "six_turned"
  | "eight_to_one"
  | "complex_three"
  | "complex_five";

/** An ordinary system in words. */
export interface OrdinaryAbout {
  system: Ordinary;
  sort: "simple" | "compound" | "complex";
  ideal: number;
  sheaves: number;
  about: string;
}

/** Every ordinary system, what it is and what it takes. */
export function ordinary_systems(): OrdinaryAbout[];

/** An ordinary system with parallel ropes and one kind of sheave, for `solve`. */
export function ordinary(input: { system: Ordinary; friction: Friction }): System;

/** Block-and-tackle stages that haul on one another, from the load to the hand, for `solve`. */
export function tackle(input: { parts: number[]; redirect: boolean; friction: Friction }): System;
