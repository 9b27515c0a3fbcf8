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
  x_m: Float64Array;
  y_m: Float64Array;
  z_m: Float64Array;
  clearance_m: Float64Array;
  peak_n: Float64Array;
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
  wind_m_per_s: Float64Array;
  leftmost_m: Float64Array;
  rightmost_m: Float64Array;
  lowest_m: Float64Array;
  peak_n: Float64Array;
  walls: { wall: string; clearance_m: Float64Array; largest: Quantity | null }[];
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
  peak_n: Float64Array;
  lowest_m: Float64Array;
  leftmost_m: Float64Array;
  rightmost_m: Float64Array;
  clearance_m: Float64Array;
  contacts: number;
  t_s: Float64Array;
  x_low_m: Float64Array;
  x_high_m: Float64Array;
  y_low_m: Float64Array;
  y_high_m: Float64Array;
  z_low_m: Float64Array;
  z_high_m: Float64Array;
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
