import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

/** How a turn takes tension: one figure; a wheel on an axle by its figure at half a turn or by its bearing; rope
 * sliding on a bar or in a groove; rollers in a row. */
export type Friction =
  | { law: "fixed"; efficiency: RatioLike }
  | { law: "axle"; efficiency_180: RatioLike }
  | { law: "bearing"; mu: RatioLike; radius_ratio: RatioLike }
  | { law: "capstan"; mu: RatioLike }
  | { law: "groove"; mu: RatioLike; angle: QuantityLike }
  | { law: "rollers"; efficiency_180: RatioLike; count: number };

/** What one turn does. */
export interface SheaveLoss {
  /** Tension behind over tension ahead. */
  efficiency: Quantity;
  /** Tension ahead over tension behind. */
  factor: Quantity;
  /** Force on the axle over the tension behind. */
  on_axle: Quantity;
  /** Whether a figure of half a turn is used below a quarter turn, where it takes too much. */
  far_from_half_turn: boolean;
}

/** What a pulley, a bar, an edge or rollers take from a rope that turns by `wrap`. */
export function sheave_loss(input: { friction: Friction; wrap: QuantityLike }): SheaveLoss;
