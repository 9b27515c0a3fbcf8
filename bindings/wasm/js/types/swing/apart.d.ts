import type { Quantity, QuantityLike } from "../quantity.js";
import type { Jump, Place } from "./jump.js";

/** A point in time, in metres: one value for each sample, or one for a point that stays. */
export interface Track {
  x_m: ArrayLike<number>;
  y_m: ArrayLike<number>;
  z_m: ArrayLike<number>;
}

/** A body, a rope or a line: a point, or points joined by straight pieces. */
export interface Thing {
  name: string;
  radius: QuantityLike;
  points: Track[];
  /** Whether it is a loop of rope that a body could go through. */
  is_loop?: boolean;
}

export interface Scene {
  t_s: ArrayLike<number>;
  things: Thing[];
  /** Pairs that touch by design, by name. */
  joined?: [string, string][];
}

export interface Apart {
  /** Nearest first. */
  pairs: {
    first: string;
    second: string;
    least: Quantity;
    time: Quantity;
    first_place: Place;
    second_place: Place;
  }[];
  crossings: { body: string; through: string; time: Quantity; place: Place }[];
}

/** How near things come to each other, and whether a body goes through a loop. */
export function least_apart(scene: Scene): Apart;

/** Least distances between body, jump ropes, lines and parked ropes over a jump. */
export function apart_in_flight(input: { jump: Jump; parked: Thing[] }): Apart;
