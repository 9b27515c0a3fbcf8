import type { Stretch } from "../material.js";
import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Chain, ElasticLine, LineNote } from "./solve.js";

/** Natural frequencies of a taut string. */
export function string_modes(input: {
  length: QuantityLike;
  tension: QuantityLike;
  linear_density: QuantityLike;
  count: number;
}): { frequency_hz: Float64Array };

/** Frequencies ω c sqrt(m / N) / π of a shallow cable with a sag parameter λ². */
export function irvine_caughey(input: { lambda_squared: RatioLike; count: number }): {
  symmetric_over_pi: Float64Array;
  antisymmetric_over_pi: Float64Array;
  out_of_plane_over_pi: Float64Array;
};

/** Frequencies and shapes of an empty line; one list in a shape for each mode. */
export interface CableModes {
  lambda_squared: Quantity;
  sag_ratio: Quantity;
  chord_tension: Quantity;
  symmetric_hz: Float64Array;
  antisymmetric_hz: Float64Array;
  out_of_plane_hz: Float64Array;
  first_in_plane: "symmetric" | "antisymmetric";
  along: Float64Array;
  symmetric_shape: Float64Array[];
  antisymmetric_shape: Float64Array[];
  out_of_plane_shape: Float64Array[];
  notes: LineNote[];
}

/** Frequencies and shapes of an empty line between two anchors, its sag below an eighth of the chord. */
export function cable_modes(input: { line: ElasticLine; count: number }): CableModes;

/** A chain that vibrates about its rest, with the mass that each load holds. */
export interface VibratingChain {
  chain: Chain;
  masses?: readonly QuantityLike[];
  segments?: number;
  count?: number;
}

/** A mode: frequency, shares of the kinetic energy by direction, displacement of each node. */
export interface ModeShape {
  frequency_hz: number;
  along_share: Quantity;
  sideways_share: Quantity;
  upward_share: Quantity;
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
}

/** Modes of a chain and the rest places of its nodes, anchors included. */
export interface ChainModes {
  modes: ModeShape[];
  s_m: Float64Array;
  x_m: Float64Array;
  y_m: Float64Array;
  z_m: Float64Array;
  residual: Quantity;
}

/** Modes of a chain of any pieces with masses tied to it, about its exact rest. */
export function chain_modes(chain: VibratingChain): ChainModes;

/** How a person moves on a line. */
export interface Bounce {
  tension_near: Quantity;
  tension_far: Quantity;
  below_chord: Quantity;
  vertical_stiffness: Quantity;
  sway_stiffness: Quantity;
  line_mass: Quantity;
  bounce_period: Quantity;
  bounce_period_with_third: Quantity;
  bounce_period_exact: Quantity;
  bounce_share: Quantity;
  sway_period: Quantity;
  sway_period_with_third: Quantity;
  sway_period_exact: Quantity;
  sway_share: Quantity;
  residual: Quantity;
  notes: LineNote[];
}

/** Bounce and sway of a person at rest length `at` from the near end of a line. */
export function bounce(input: {
  line: ElasticLine;
  at: QuantityLike;
  mass: QuantityLike;
}): Bounce;

/** An empty line that was plucked at its middle and timed. */
export interface PluckedLine {
  span: QuantityLike;
  rise: QuantityLike;
  weight: QuantityLike;
  stretch: Stretch;
  plane: "sideways" | "vertical";
  time: QuantityLike;
  periods: number;
  time_error: QuantityLike;
  weight_error: QuantityLike;
}

/** Every tension that fits a pluck, the least first. */
export interface PluckReading {
  period: Quantity;
  string_tension: Quantity;
  tensions: {
    chord_tension: Quantity;
    error: Quantity;
    error_from_time: Quantity;
    error_from_weight: Quantity;
    lambda_squared: Quantity;
    sag_ratio: Quantity;
    string_bias: Quantity;
  }[];
}

/** Tension of an empty line from the period of a pluck at its middle. */
export function tension_from_pluck(pluck: PluckedLine): PluckReading;

/** A line on which a person was bounced and timed. */
export interface BouncedLine {
  span: QuantityLike;
  rise: QuantityLike;
  weight: QuantityLike;
  stretch: Stretch;
  at_share: RatioLike;
  mass: QuantityLike;
  mass_error: QuantityLike;
  time: QuantityLike;
  periods: number;
  time_error: QuantityLike;
}

/** Every tension that fits a bounce, the least first. */
export interface BounceReading {
  period: Quantity;
  string_tension: Quantity;
  tensions: {
    standing_tension: Quantity;
    standing_error: Quantity;
    loaded_tension: Quantity;
    loaded_error: Quantity;
    standing_error_from_time: Quantity;
    standing_error_from_mass: Quantity;
    rest_length: Quantity;
    below_chord: Quantity;
    lambda_squared: Quantity;
    string_bias: Quantity;
    period_exact: Quantity;
  }[];
}

/** Tension of a line from the period of a person who bounces on it. */
export function tension_from_bounce(person: BouncedLine): BounceReading;
