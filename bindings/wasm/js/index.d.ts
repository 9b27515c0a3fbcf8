export type { Quantity, QuantityLike, RatioLike } from "./types/quantity.js";
import type { Quantity, QuantityLike, RatioLike } from "./types/quantity.js";

export * as anchor from "./types/anchor.js";
export * as fall from "./types/fall.js";
export * as line from "./types/line.js";
export * as material from "./types/material.js";
export * as pulley from "./types/pulley.js";
export * as rig from "./types/rig.js";
export * as swing from "./types/swing.js";

/** The plan of a rig document, TOML or JSON. Throws a DocumentError with every mistake. */
export function plan(text: string): import("./types/rig.js").Plan;

/**
 * The loss table of a rig document: every component that can fail, in three ways. `progress` hears of each case
 * and may return false to stop, which throws a ModelError.
 */
export function loss_table(
  text: string,
  options?: {
    pairs?: boolean;
    progress?: (done: number, total: number, component: string) => unknown;
  },
): import("./types/rig.js").LossTable;

/** The number of a quantity in another unit of its kind. */
export function convert(quantity: QuantityLike | RatioLike, unit: string): number;
/** The text of a quantity: exact as it stands, or in a unit with a number of decimals (2). */
export function format(quantity: QuantityLike | RatioLike, unit?: string, decimals?: number): string;
/** Every call with the names of its arguments; null if it takes one struct. */
export function calls(): Record<string, string[] | null>;

/** Any failure of a call. */
export class TautworkError extends Error {}
/** An argument is missing, of the wrong type, or outside its range. */
export class InvalidInput extends TautworkError {
  parameter: string;
  value?: string;
  allowed?: string;
}
/** A quantity has no unit, an unknown unit, or one of another kind. */
export class UnitError extends TautworkError {
  parameter?: string;
  value?: string;
}
/** The model has no answer for these inputs. */
export class ModelError extends TautworkError {}
/** A solver ran out of its budget. */
export class NoConvergence extends TautworkError {
  residual?: Quantity | number;
}
/** A document holds mistakes. */
export class DocumentError extends TautworkError {
  mistakes: import("./types/rig.js").Mistake[];
}
