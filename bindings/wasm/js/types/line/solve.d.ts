import type { Condition, Stretch } from "../material.js";
import type { Quantity, QuantityLike } from "../quantity.js";
import type { Gust } from "./chain.js";

/** Along the span, to the left, up. */
export type Vector = [Quantity, Quantity, Quantity];
/** The same as an argument. */
export type VectorLike = readonly [QuantityLike, QuantityLike, QuantityLike];

/**
 * A remark: the tension is past the last point of the stretch table, or the sag is too deep for the
 * theory of shallow cables.
 */
export type LineNote =
  | { past_stretch_table: { tension: Quantity; last_point: Quantity } }
  | { deep_sag: { sag_ratio: Quantity } };

/** A hanging line that does not stretch. */
export interface Catenary {
  h: Quantity;
  parameter: Quantity;
  rest_length: Quantity;
  v_near: Quantity;
  tension_near: Quantity;
  tension_far: Quantity;
  sag_below_chord: Quantity;
  sag_below_near: Quantity;
  residual: Quantity;
}

/** A line between two anchors; the far one is `rise` above the near one. */
export interface ElasticLine {
  span: QuantityLike;
  rise: QuantityLike;
  rest_length: QuantityLike;
  weight: QuantityLike;
  stretch: Stretch;
}

/** A line at rest. `v_near` is the upward pull of the near anchor on the line. */
export interface ElasticSolution {
  h: Quantity;
  v_near: Quantity;
  tension_near: Quantity;
  tension_far: Quantity;
  stretched_length: Quantity;
  sag_below_chord: Quantity;
  sag_below_near: Quantity;
  residual: Quantity;
  iterations: number;
  notes: LineNote[];
}

/** One number for all lines, or one for each. */
export type Series = number | readonly number[] | Float64Array;

/** Many lines at rest, in SI. */
export interface ElasticArrays {
  h_n: Float64Array;
  v_near_n: Float64Array;
  tension_near_n: Float64Array;
  tension_far_n: Float64Array;
  stretched_length_m: Float64Array;
  sag_below_chord_m: Float64Array;
  residual_m: Float64Array;
}

/** A piece of a chain. */
export interface ChainPiece {
  rest_length: QuantityLike;
  weight: QuantityLike;
  wind?: VectorLike;
  stretch: Stretch;
  /** Wind by its speed, added to `wind`. */
  gust?: Gust;
  /** 0: the gust acts across the chord; n: across each of n parts of the piece as it lies. */
  gust_parts?: number;
  condition?: Condition;
}

/** A load tied to a point of a chain; one of zero marks a point. */
export interface ChainLoad {
  at: QuantityLike;
  force: VectorLike;
}

/** A line of several pieces between two points. */
export interface Chain {
  near: VectorLike;
  far: VectorLike;
  pieces: readonly ChainPiece[];
  loads?: readonly ChainLoad[];
  samples?: number;
}

/** Points along a chain, in SI. */
export interface ChainProfile {
  s_m: Float64Array;
  x_m: Float64Array;
  y_m: Float64Array;
  z_m: Float64Array;
  tension_n: Float64Array;
  tension_x_n: Float64Array;
  tension_y_n: Float64Array;
  tension_z_n: Float64Array;
  strain: Float64Array;
  slope_rad: Float64Array;
}

/** A chain at rest. */
export interface ChainSolution {
  pull_near: Vector;
  pull_far: Vector;
  tension_near: Quantity;
  tension_far: Quantity;
  stretched_length: Quantity;
  lowest: Vector;
  lowest_at: Quantity;
  sag_below_chord: Quantity;
  sag_below_near: Quantity;
  pieces: { stretched_length: Quantity; greatest_tension: Quantity }[];
  loads: {
    at: Quantity;
    position: Vector;
    below_chord: Quantity;
    tension_before: Quantity;
    tension_after: Quantity;
    pull_before: Vector;
    pull_after: Vector;
    strain_before: Quantity;
    strain_after: Quantity;
    slope_before: Quantity;
    slope_after: Quantity;
  }[];
  profile: ChainProfile;
  residual: Quantity;
  iterations: number;
  wind_residual: Quantity;
  wind_passes: number;
  notes: LineNote[];
}

/** Points, at least one of them fixed, and lines between them. */
export interface Net {
  nodes: readonly { name: string; position: VectorLike; fixed: boolean; load?: VectorLike }[];
  lines: readonly {
    name: string;
    from: string;
    to: string;
    rest_length: QuantityLike;
    weight: QuantityLike;
    stretch: Stretch;
  }[];
}

/** A net at rest. */
export interface NetSolution {
  nodes: { name: string; position: Vector; pull: Vector; stiffness: Vector }[];
  lines: {
    name: string;
    tension_from: Quantity;
    tension_to: Quantity;
    pull_from: Vector;
    pull_to: Vector;
    stretched_length: Quantity;
    lowest: Vector;
    notes: LineNote[];
  }[];
  residual: Quantity;
  iterations: number;
}

/** A line from its near anchor over the ring, where it is tied, to its far anchor. */
export interface BundleLine {
  name: string;
  near: VectorLike;
  far: VectorLike;
  near_length: QuantityLike;
  far_length: QuantityLike;
  weight: QuantityLike;
  stretch: Stretch;
}

/** One line of a bundle at rest. */
export interface BundleLineState {
  name: string;
  tension_near: Quantity;
  tension_ring_near: Quantity;
  tension_ring_far: Quantity;
  tension_far: Quantity;
  pull_near: Vector;
  pull_far: Vector;
  pull_ring: Vector;
  share: Quantity;
  sag_below_chord: Quantity;
  sag_below_near: Quantity;
  stretched_length: Quantity;
  notes: LineNote[];
}

/** A bundle at rest; `stiffness` has the rows of a symmetric matrix. */
export interface BundleSolution {
  load: Vector;
  ring: Vector;
  lines: BundleLineState[];
  stiffness: [Vector, Vector, Vector];
  residual: Quantity;
  iterations: number;
}

/** The downward load at which a line begins to carry; null if it does not up to the largest. */
export interface BundleEngagement {
  line: string;
  load: Quantity | null;
}

/** A hanging line that does not stretch. */
export function catenary(input: {
  span: QuantityLike;
  rise: QuantityLike;
  rest_length: QuantityLike;
  weight: QuantityLike;
}): Catenary;

/** The line that does not stretch with a given largest vertical distance below its chord. */
export function catenary_from_sag(input: {
  span: QuantityLike;
  rise: QuantityLike;
  sag_below_chord: QuantityLike;
  weight: QuantityLike;
}): Catenary;

/** Tension, length and sag of one line under its own weight. */
export function solve_elastic(line: ElasticLine): ElasticSolution;

/** `solve_elastic` for many linear lines at once. */
export function solve_elastic_batch(input: {
  span_m: Series;
  rise_m: Series;
  rest_length_m: Series;
  weight_n_per_m: Series;
  axial_rigidity_n: Series;
}): ElasticArrays;

/** Rest length at which a line stands with a wanted tension at one end, on the taut side. */
export function rest_length_for_tension(input: {
  line: ElasticLine;
  tension: QuantityLike;
  end: "near" | "far";
}): Quantity;

/** Rest length at which a line hangs with a wanted sag below its chord. */
export function rest_length_for_sag(input: {
  line: ElasticLine;
  sag_below_chord: QuantityLike;
}): Quantity;

/** Rest length at which a load tied to the middle hangs a wanted distance below the chord. */
export function rest_length_for_mid_load_sag(input: {
  line: ElasticLine;
  load: QuantityLike;
  sag_below_chord: QuantityLike;
}): Quantity;

/** A line of any number of pieces with any number of loads tied to it, in space. */
export function solve_chain(chain: Chain): ChainSolution;

/** Where the free points of a net of lines come to rest, and what its lines carry. */
export function solve_net(net: Net): NetSolution;

/** Where the ring of a bundle rests under a load, and what each line carries. */
export function solve_bundle(input: {
  lines: readonly BundleLine[];
  load: VectorLike;
}): BundleSolution;

/** `solve_bundle` for one load after the other, each from the state of the last. */
export function sweep_bundle(input: {
  lines: readonly BundleLine[];
  loads: readonly VectorLike[];
}): BundleSolution[];

/** The ring, tensions and shares of a bundle under many loads. */
export interface BundleArrays {
  ring_x_m: Float64Array;
  ring_y_m: Float64Array;
  ring_z_m: Float64Array;
  lines: {
    name: string;
    tension_near_n: Float64Array;
    tension_far_n: Float64Array;
    share: Float64Array;
  }[];
  residual: Float64Array;
}

/** `sweep_bundle` for many loads, in SI. Steps in one direction cost least. */
export function sweep_bundle_batch(input: {
  lines: readonly BundleLine[];
  load_x_n: Series;
  load_y_n: Series;
  load_z_n: Series;
}): BundleArrays;

/** The downward load at which each line of a bundle begins to carry. */
export function bundle_engagement(input: {
  lines: readonly BundleLine[];
  up_to: QuantityLike;
}): BundleEngagement[];

/** Rest length at which a line of a bundle has a wanted tension at one end, all lines being on. */
export function bundle_rest_length_for_tension(input: {
  lines: readonly BundleLine[];
  line: string;
  tension: QuantityLike;
  end: "near" | "far";
  load: VectorLike;
}): Quantity;
