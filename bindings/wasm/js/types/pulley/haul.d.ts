import type { Quantity, QuantityLike } from "../quantity.js";
import type { Friction } from "./loss.js";
import type { Ordinary } from "./network.js";

/** A haul and the people for it. */
export interface Haul {
  system: Ordinary;
  friction: Friction;
  load: QuantityLike;
  lift: QuantityLike;
  throw: QuantityLike;
  back_slip?: QuantityLike;
  line_length?: QuantityLike;
  line_rigidity?: QuantityLike;
  system_rigidity?: QuantityLike;
  people: number;
  pull_each: QuantityLike;
  hand_speed: QuantityLike;
  reset_time: QuantityLike;
}

/** What a haul takes. */
export interface HaulWork {
  system: Ordinary;
  ideal_advantage: Quantity;
  actual_advantage: Quantity;
  hand_force: Quantity;
  holding_force: Quantity;
  people_needed: number;
  enough: boolean;
  strokes: number;
  resets: number;
  lost_each_stroke: Quantity;
  line_stretch: Quantity;
  rope_through_hands: Quantity;
  rope_in_system: Quantity;
  time: Quantity;
  work: Quantity;
  raised: Quantity;
  stored: Quantity;
  lost_at_resets: Quantity;
  lost_at_sheaves: Quantity;
  bodies: { name: string; force: [Quantity, Quantity, Quantity]; resultant: Quantity }[];
}

/** Strokes, resets, rope, time and work of a haul with an ordinary system. */
export function haul_work(haul: Haul): HaulWork;

/** One lift with several systems, and the least that the people can pull. */
export function compare_hauls(input: { haul: Haul; systems: readonly Ordinary[] }): {
  each: HaulWork[];
  least: Ordinary | null;
};
