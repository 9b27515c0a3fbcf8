import type { Quantity } from "../quantity.js";
import type { Flight, Jump, Place, PlaceLike } from "./jump.js";

/** One rope of the loop at the waiting jumper; the arrays go from ring to harness. */
export interface WaitingRope {
  name: string;
  /** Pull on the harness: along the span, to the left, up. */
  pull: [Quantity, Quantity, Quantity];
  tension: Quantity;
  lowest: Place;
  below_body: Quantity;
  x_m: Float64Array;
  y_m: Float64Array;
  z_m: Float64Array;
}

export interface Waiting {
  ring: Place;
  ropes: WaitingRope[];
  pull: [Quantity, Quantity, Quantity];
  level_pull: Quantity;
  friction_needed: Quantity | null;
  clearances: { wall: string; rope: string; least: Quantity }[];
}

/** What holds the jumper at the edge until the jump. */
export interface Tether {
  anchor: PlaceLike;
  rope: Jump["ropes"][number];
}

export interface StepOff {
  early: Flight;
  tethered: { flight: Flight; least_slack: Quantity } | null;
}

/** What the loops of rope do to the jumper who waits at the exit. */
export function waiting(jump: Jump): Waiting;

/** What happens if the jumper leaves the edge without the run: early, and on a tether. */
export function step_off(input: { jump: Jump; tether?: Tether }): StepOff;
