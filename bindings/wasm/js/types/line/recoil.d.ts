import type { Stretch } from "../material.js";
import type { Quantity, QuantityLike } from "../quantity.js";

/** A line about to break. */
export interface BrokenLine {
  tension: QuantityLike;
  /** Of the part that recoils, from the break to where it stays tied. */
  rest_length: QuantityLike;
  stretch: Stretch;
  linear_density: QuantityLike;
  /** Mass of what hangs at the broken end. */
  end_mass?: QuantityLike;
  /** Height above where things land. */
  height?: QuantityLike;
}

/** What a broken line does. */
export interface Recoil {
  energy: Quantity;
  stretched_by: Quantity;
  speed: Quantity;
  reach: Quantity;
  thrown_speed: Quantity | null;
  thrown_reach: Quantity | null;
  past_table: boolean;
}

/** Energy, speed and reach of a line that breaks under tension. */
export function recoil(line: BrokenLine): Recoil;
