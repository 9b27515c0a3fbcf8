import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Clearance, Extreme, Flight, Jump, Place, Run } from "./jump.js";

/** Masses along lines and ropes, and steps. */
export interface Mesh {
  /** Moving masses on each line; 66 if left out. */
  nodes_per_line?: number;
  /** Moving masses on each jump rope; 66 if left out. */
  nodes_per_rope?: number;
  /** First step tried over the longest stable one; 0.25 if left out. */
  step_share?: RatioLike;
  /** Greatest error of the energy books before the step is halved; 0.001 if left out. */
  drift?: RatioLike;
  /** Most steps of all attempts; five million if left out. */
  most_steps?: number;
  /** Drag coefficient times diameter of each jump rope. */
  rope_drag_width?: QuantityLike;
  /** The same for each line. */
  line_drag_width?: QuantityLike;
  line_losses?: { line: string; arm: QuantityLike; relaxation: QuantityLike }[];
  /** Lines that run through the ring, and their stops by rest length from the near anchor. */
  slides?: { line: string; friction: RatioLike; from?: QuantityLike; to?: QuantityLike }[];
}

export interface FullFlight {
  run: Run;
  ending: "contact" | "settled" | "horizon";
  duration: Quantity;
  events: Flight["events"];
  catch: Flight["catch"];
  resultant: Extreme;
  tension_over_weight: Quantity;
  time_above: Flight["time_above"];
  lowest: Extreme;
  first_lowest: Extreme | null;
  top_speed: Extreme;
  ropes: { name: string; body_end: Extreme; ring_end: Extreme }[];
  lines: {
    name: string;
    near_standing: Quantity;
    far_standing: Quantity;
    near: Extreme;
    far: Extreme;
    ring_near: Extreme;
    ring_far: Extreme;
    /** None for a line that runs through the ring. */
    quasi_static: Quantity | null;
    over_quasi_static: Quantity | null;
    /** How it slid, by rest length from the near anchor; none for a line that is tied. */
    slid: {
      start: Quantity;
      least: Quantity;
      greatest: Quantity;
      travel: Quantity;
      lost: Quantity;
    } | null;
  }[];
  stops: Flight["stops"];
  anchors: Flight["anchors"];
  ring: Flight["ring"];
  exit_clearance: Clearance | null;
  clearances: Clearance[];
  rope_clearances: { wall: string; rope: string; least: Quantity; time: Quantity; place: Place }[];
  rest: { ring: Place; body: Place } | null;
  settled: Quantity | null;
  after_fault: Flight["after_fault"];
  energy: Record<string, Quantity>;
  /** The motion at equal spacing, in SI. */
  series: {
    t_s: Float64Array;
    x_m: Float64Array;
    y_m: Float64Array;
    z_m: Float64Array;
    ring_x_m: Float64Array;
    ring_y_m: Float64Array;
    ring_z_m: Float64Array;
    resultant_n: Float64Array;
    rope_body_tension_n: Float64Array[];
    rope_ring_tension_n: Float64Array[];
    line_near_tension_n: Float64Array[];
    line_far_tension_n: Float64Array[];
    /** Rest length of each line from its near anchor to the ring. */
    ring_on_line_m: Float64Array[];
  };
  mesh: {
    nodes: number;
    segments: number;
    step: Quantity;
    longest_stable_step: Quantity;
    steps: number;
    all_steps: number;
  };
  notes: ({ kind: string } & Record<string, unknown>)[];
  assumed: { parameter: string; value: string }[];
}

/** Follow a jump with lines and ropes as rows of masses: waves and snap loads are in it. */
export function fly_full(input: { jump: Jump; mesh: Mesh }): FullFlight;
