import type { Condition } from "../material.js";
import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Chain, ElasticLine, LineNote, Vector, VectorLike } from "./solve.js";

/** A line in the wanted state, and how it is drawn in. */
export interface PullIn {
  line: ElasticLine;
  from_length: QuantityLike;
  end: "near" | "far";
  samples?: number;
}

/** The way from slack to the wanted state, in SI, and the whole of the work. */
export interface PullInCurve {
  rest_length_m: Float64Array;
  drawn_in_m: Float64Array;
  through_m: Float64Array;
  tension_near_n: Float64Array;
  tension_far_n: Float64Array;
  sag_below_chord_m: Float64Array;
  stored_j: Float64Array;
  lifted_j: Float64Array;
  work_j: Float64Array;
  work: Quantity;
  imbalance: Quantity;
  residual: Quantity;
  notes: LineNote[];
}

/** What happens to a line that stands; nothing, where left out. */
export interface Changes {
  near_moves?: VectorLike;
  far_moves?: VectorLike;
  condition?: Condition;
}

/** A line at rest, in short. */
export interface StandingLine {
  tension_near: Quantity;
  tension_far: Quantity;
  sag_below_chord: Quantity;
  lowest: Vector;
  rest_length: Quantity;
  residual: Quantity;
  notes: LineNote[];
}

/** A line before and after, with the slopes of its near tension in the state before. */
export interface ChangedLine {
  before: StandingLine;
  after: StandingLine;
  tension_change: Quantity;
  sag_change: Quantity;
  rest_length_factor: Quantity;
  rates: { by_far_anchor: Quantity; by_percent_longer: Quantity; by_kelvin: Quantity };
}

/** A load cell in series; the line gets longer by it. */
export interface LoadCell {
  at: QuantityLike;
  length: QuantityLike;
  mass: QuantityLike;
  axial_rigidity?: QuantityLike;
}

/** What a load cell reads. */
export interface LoadCellReading {
  reading: Quantity;
  tension_near_side: Quantity;
  tension_far_side: Quantity;
  without_cell: Quantity;
  position: Vector;
  tension_near: Quantity;
  tension_far: Quantity;
  greatest: Quantity;
  notes: LineNote[];
}

/** A line to cut; what is left out takes nothing. */
export interface LineToBring {
  name: string;
  rest_length: QuantityLike;
  near_tail?: QuantityLike;
  far_tail?: QuantityLike;
  wraps?: readonly { name: string; circumference: QuantityLike; turns: RatioLike }[];
  knots?: readonly { name: string; length: QuantityLike; count?: number }[];
  bedding_in?: RatioLike;
  marking_error?: RatioLike;
  linear_density?: QuantityLike;
}

/** Webbing and rope to cut, with the items of each length. */
export interface LengthsToBring {
  lines: {
    name: string;
    items: { item: string; length: Quantity }[];
    total: Quantity;
    mass: Quantity | null;
  }[];
  total: Quantity;
  mass: Quantity;
}

/** Tension, sag and energy of a line while it is drawn in from slack. */
export function pull_in(input: PullIn): PullInCurve;

/** Tension and sag after anchors have moved and cordage has become warmer, wet or longer. */
export function change_line(input: { line: Chain; changes: Changes }): ChangedLine;

/** Tension that a load cell in series sees. */
export function load_cell_reading(input: { line: Chain; cell: LoadCell }): LoadCellReading;

/** Webbing and rope to cut for each line, with the items of its length. */
export function lengths_to_bring(input: { lines: readonly LineToBring[] }): LengthsToBring;
