import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Jump, Place, PlaceLike } from "./jump.js";

/** Ropes of another length. */
export interface RopeLengths {
  rest_lengths: Quantity[];
  longer: Quantity;
  lowest: Quantity;
  flown: number;
}

export interface HighestExit {
  exit: Place;
  peak: Quantity;
  flown: number;
}

/** Where one may jump from; the arrays go together. */
export interface ExitPlaces {
  x_m: number[];
  y_m: number[];
  z_m: number[];
  clearance_m: number[];
  peak_n: number[];
  holds: { from: Place; to: Place }[];
}

/** Winds from still air to `most`, in one direction. */
export interface Winds {
  most: QuantityLike;
  count: number;
  along: RatioLike;
  left: RatioLike;
  required: QuantityLike;
}

export interface WindSweep {
  wind_m_per_s: number[];
  leftmost_m: number[];
  rightmost_m: number[];
  lowest_m: number[];
  peak_n: number[];
  walls: { wall: string; clearance_m: number[]; largest: Quantity | null }[];
}

/** Half widths within which each jump differs. */
export interface Spread {
  count: number;
  seed: number;
  mass: RatioLike;
  rope_stiffness: RatioLike;
  drag_area: RatioLike;
  exit_speed: QuantityLike;
  wind: QuantityLike;
  exit_y: QuantityLike;
}

/** One value for each jump, and bounds over time. */
export interface Envelope {
  peak_n: number[];
  lowest_m: number[];
  leftmost_m: number[];
  rightmost_m: number[];
  clearance_m: number[];
  contacts: number;
  t_s: number[];
  x_low_m: number[];
  x_high_m: number[];
  y_low_m: number[];
  y_high_m: number[];
  z_low_m: number[];
  z_high_m: number[];
}

/** The ropes with which the lowest point is at a height: the same is added to each. */
export function rope_length_for_lowest(input: { jump: Jump; lowest: QuantityLike }): RopeLengths;

/** The highest exit, straight above or below, whose peak force on the body is at most `peak`. */
export function highest_exit_for_peak(input: { jump: Jump; peak: QuantityLike }): HighestExit;

/** Where along a straight edge, from the exit to `to`, the clearance to every wall holds. */
export function exits_that_clear(input: {
  jump: Jump;
  to: PlaceLike;
  required: QuantityLike;
  count: number;
}): ExitPlaces;

/** What winds of one direction do: drift, lowest point, peak, and the largest wind for each wall. */
export function wind_sweep(input: { jump: Jump; winds: Winds }): WindSweep;

/** Fly a jump many times, each a little different. */
export function envelope(input: { jump: Jump; spread: Spread }): Envelope;
