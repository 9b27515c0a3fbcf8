import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { BundleLine, BundleSolution, Vector, VectorLike } from "./solve.js";

/** How a ring sits on a line: tied, or sliding between stops given as rest lengths from the near anchor. */
export type RingHold =
  | "tied"
  | { slides: { friction: RatioLike; from?: QuantityLike; to?: QuantityLike } };

/** A line and how the ring sits on it; tied if left out. */
export interface RingLine {
  line: BundleLine;
  hold?: RingHold;
}

/** What holds a ring along a line. */
export interface RingHoldState {
  name: string;
  near_length: Quantity;
  kind: "tied" | "friction" | "limit" | "near_stop" | "far_stop";
  wrap: Quantity;
  stop_force: Quantity;
}

/** The ring and its lines at rest. */
export interface RingsState {
  bundle: BundleSolution;
  holds: RingHoldState[];
  stiffness_sliding: [Vector, Vector, Vector];
  rounds: number;
}

/** Where a ring may rest: from the place given, and both ends of the range. */
export interface RingsSolution {
  here: RingsState;
  toward_near: RingsState;
  toward_far: RingsState;
  range: Quantity;
}

/** What the loss of each line does. */
export interface RingLosses {
  whole: RingsState;
  losses: { line: string; after: RingsState | null; drop: Quantity; shift: Quantity }[];
}

/** Where a ring rests that slides on some of its lines, and the range that friction leaves it. */
export function solve_rings(input: {
  lines: readonly RingLine[];
  load: VectorLike;
}): RingsSolution;

/** `solve_rings` for one load after the other: the ring slides from where the last load left it. */
export function sweep_rings(input: {
  lines: readonly RingLine[];
  loads: readonly VectorLike[];
}): RingsState[];

/** What the loss of each line does: the rest of the others when motion has died. */
export function ring_losses(input: {
  lines: readonly RingLine[];
  load: VectorLike;
}): RingLosses;
