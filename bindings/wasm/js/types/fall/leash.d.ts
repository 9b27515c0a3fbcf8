import type { Chain, LineNote } from "../line/solve.js";
import type { Quantity, QuantityLike } from "../quantity.js";
import type { Arrest } from "./stop.js";

/** Catch a walker on a leash from a line, by energy of leash and line together. */
export function leash_fall(fall: {
  /** The line without the walker. */
  line: Chain;
  at: QuantityLike;
  mass: QuantityLike;
  leash: QuantityLike;
  leash_stretch: Record<string, unknown>;
  tie_in_above: QuantityLike;
  body_below?: QuantityLike;
}): {
  leash_force: Quantity;
  leash_strain: Quantity;
  standing_depth: Quantity;
  free_fall: Quantity;
  start_force: Quantity;
  ring_depth: Quantity;
  lowest_below_line: Quantity;
  drop: Quantity;
  energy: Quantity;
  line_energy: Quantity;
  standing_tension_near: Quantity;
  tension_near: Quantity;
  tension_far: Quantity;
  wave_time: Quantity;
  rise_time: Quantity;
  residual: number;
  solves: number;
  notes: Arrest["notes"];
  line_notes: LineNote[];
};
