import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Friction } from "./loss.js";

/** A load on a rope that hands let run. */
export interface Lowering {
  load: QuantityLike;
  /** From the load to the tail of the rope. */
  steps: (
    | { step: "turn"; name: string; friction: Friction; wrap: QuantityLike }
    | { step: "hand"; name: string; grip: QuantityLike }
  )[];
}

/** Whether it holds, and with what. */
export interface LoweringHolds {
  holds: boolean;
  /** What runs through behind the last hand. */
  left: Quantity;
  holds_up_to: Quantity;
  factor: Quantity;
  steps: { name: string; arrives: Quantity; behind: Quantity; heat_j_per_m: number }[];
  /** The same without each of the hands. */
  without: { name: string; holds: boolean; holds_up_to: Quantity }[];
}

/** Whether hands hold a load that is lowered through turns. */
export function lowering(plan: Lowering): LoweringHolds;

/** Wrap on a device with which a hand holds a load. */
export function wrap_to_hold(input: {
  load: QuantityLike;
  hand: QuantityLike;
  mu: RatioLike;
}): Quantity;
