import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

/** One row of a sag table, as it is asked for. */
export interface SagCase {
  span: QuantityLike;
  weight: QuantityLike;
  tension: QuantityLike;
}

/** One row of a sag table. */
export interface SagRow {
  span: Quantity;
  weight: Quantity;
  tension: Quantity;
  sag: Quantity;
  h: Quantity;
  tension_end: Quantity;
  length: Quantity;
  angle_end: Quantity;
}

/** A line without weight, with a load in the middle. */
export interface MidLoadRow {
  sag_over_span: Quantity;
  angle: Quantity;
  tension_over_load: Quantity;
  h_over_load: Quantity;
  tension: Quantity;
}

/** Two equal legs, or a line turned by a block. */
export interface AngleRow {
  included: Quantity;
  from_level: Quantity;
  tension_over_load: Quantity;
  tension_factor: Quantity;
  reduction_factor: Quantity;
  block_factor: Quantity;
}

/** A table to print. */
export type LineTable =
  | { sag: readonly SagRow[] }
  | { mid_load: readonly MidLoadRow[] }
  | { angle: readonly AngleRow[] };

/** How a table is printed. */
export interface TableStyle {
  format?: "markdown" | "csv";
  length_unit?: string;
  force_unit?: string;
  weight_unit?: string;
  decimals?: number;
}

/** Sag, tensions, length and end slope of level lines from the tension that a table lists. */
export function sag_table(input: {
  cases: readonly SagCase[];
  listed: "horizontal" | "end" | "mean";
}): SagRow[];

/** Tension of a line without weight with a load in the middle, by its sag under the load. */
export function mid_load_table(input: {
  sags_over_span: readonly RatioLike[];
  load: QuantityLike;
}): MidLoadRow[];

/** Factors of two equal legs by the angle between them. */
export function angle_table(input: { included: readonly QuantityLike[] }): AngleRow[];

/** A table as Markdown or comma-separated text. */
export function table_text(input: { table: LineTable; style?: TableStyle }): string;
