import type { Quantity, QuantityLike } from "../quantity.js";
import type { Friction } from "./loss.js";
import type { Ordinary, System } from "./network.js";

/** What hauls: an ordinary system by its name, or one of one's own. */
export type HaulWith = Ordinary | { name: string; system: System };

/** A haul and the people for it. */
export interface Haul {
  system: HaulWith;
  /** Of the sheaves of an ordinary system; left out for one of one's own. */
  friction?: Friction;
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
  /** Its name. */
  system: string;
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

/** Strokes, resets, rope, time and work of a haul. */
export function haul_work(haul: Haul): HaulWork;

/** One lift with several systems, and the least that the people can pull. */
export function compare_hauls(input: { haul: Haul; systems: readonly HaulWith[] }): {
  each: HaulWork[];
  least: string | null;
};
