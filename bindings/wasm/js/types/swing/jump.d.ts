import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { TerrainMesh } from "./terrain.js";

/** A point; y, to the left of the span, is zero if left out. */
export interface PlaceLike {
  x: QuantityLike;
  y?: QuantityLike;
  z: QuantityLike;
}

export interface Place {
  x: Quantity;
  y: Quantity;
  z: Quantity;
}

/** How a jump rope or a stop of the ring stretches. */
export type Response =
  | { model: "pair"; stiff: QuantityLike; soft: QuantityLike; relaxation?: QuantityLike }
  | {
      model: "solid";
      long_term: QuantityLike;
      arm: QuantityLike;
      relaxation_low: QuantityLike;
      relaxation_high: QuantityLike;
    };

/** A profile in the plane of the span, the same for every y, or a mesh. */
export type Wall = { name: string; points: PlaceLike[] } | { name: string; mesh: TerrainMesh };

export interface Jump {
  mass: QuantityLike;
  drag_area: QuantityLike;
  exit: PlaceLike;
  exit_speed_x: QuantityLike;
  exit_speed_y?: QuantityLike;
  exit_speed_z: QuantityLike;
  ropes: {
    name: string;
    rest_length: QuantityLike;
    linear_density: QuantityLike;
    response: Response;
  }[];
  lines?: {
    name: string;
    near: PlaceLike;
    far: PlaceLike;
    near_length: QuantityLike;
    far_length: QuantityLike;
    linear_density: QuantityLike;
    /** How the line stretches, such as `{ axial_rigidity: "250 kN" }`. */
    stretch: Record<string, unknown>;
  }[];
  stops?: {
    name: string;
    anchor: PlaceLike;
    /** Slack while the jumper waits. */
    travel: QuantityLike;
    response: Response;
  }[];
  ring_mass: QuantityLike;
  fixed_ring?: PlaceLike;
  ring_at_exit?: PlaceLike;
  ring_damping?: QuantityLike;
  line_mass_share?: RatioLike;
  rope_drag_area?: QuantityLike;
  air_density?: QuantityLike;
  wind?: QuantityLike;
  wind_y?: QuantityLike;
  fold?: "neglected" | "conservative" | "dissipative";
  faults?: { part: Part; when: When }[];
  walls?: Wall[];
  body_radius: QuantityLike;
  /** Length of the body as a capsule that hangs from the tie-in; a ball if left out. */
  body_length?: QuantityLike;
  launch_zone?: QuantityLike;
  timed_forces?: QuantityLike[];
  run?: Run;
  follow?: {
    horizon?: QuantityLike;
    tolerance?: RatioLike;
    sample_every?: QuantityLike;
    most_steps?: number;
    settled_speed?: QuantityLike;
    settled_force?: RatioLike;
    settled_for?: QuantityLike;
  };
}

/** A part that fails in flight, or is missing before it. */
export interface Part {
  kind: "rope" | "line" | "near_anchor" | "far_anchor" | "stop";
  name: string;
}

export type When =
  | { kind: "before_exit" }
  | { kind: "part_peak" }
  | { kind: "body_peak" }
  | { kind: "time"; at: QuantityLike };

export type Run = "stiff" | "soft";

/** A greatest or least value, with when and where. */
export interface Extreme {
  value: Quantity;
  time: Quantity;
  place: Place;
}

export interface Clearance {
  wall: string;
  least: Extreme;
}

export interface Flight {
  run: Run;
  ending: "contact" | "settled" | "horizon";
  duration: Quantity;
  events: { time: Quantity; place: Place; what: { kind: string } & Record<string, unknown> }[];
  catch: {
    time: Quantity;
    drop: Quantity;
    speed: Quantity;
    rise_time: Quantity | null;
  } | null;
  ropes: { name: string; tension: Extreme }[];
  resultant: Extreme;
  tension_over_weight: Quantity;
  acceleration_over_g: Extreme;
  time_above: { force: Quantity; over_weight: Quantity; duration: Quantity }[];
  lowest: Extreme;
  /** Free height straight below the body at its lowest point. */
  height_left: Quantity | null;
  first_lowest: Extreme | null;
  leftmost: Extreme;
  rightmost: Extreme;
  top_speed: Extreme;
  lines: {
    name: string;
    near_standing: Quantity;
    far_standing: Quantity;
    near: Extreme;
    far: Extreme;
    wave_time: Quantity | null;
  }[];
  stops: { name: string; tension: Extreme }[];
  anchors: { place: Place; parts: string[]; standing: Quantity; peak: Extreme }[];
  ring: { start: Place; load: Extreme; lowest: Extreme; highest: Extreme; nearest: Extreme; farthest: Extreme };
  exit_clearance: Clearance | null;
  clearances: Clearance[];
  rest: { ring: Place; body: Place } | null;
  settled: Quantity | null;
  swing_period: Quantity | null;
  swings: number;
  /** Angle in radians through which taut ropes turned at the ring. */
  turned: Quantity;
  after_fault: {
    time: Quantity;
    resultant: Extreme;
    ropes: { name: string; tension: Extreme }[];
    stops: { name: string; tension: Extreme }[];
    lines_near: { name: string; tension: Extreme }[];
    lines_far: { name: string; tension: Extreme }[];
    anchors: Extreme[];
    lowest: Extreme;
    ring_lowest: Extreme | null;
    clearances: Clearance[];
  } | null;
  energy: Record<string, Quantity>;
  fold: { acceleration_over_g: Quantity; speed_excess: Quantity };
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
    rope_tension_n: Float64Array[];
    stop_tension_n: Float64Array[];
    line_near_tension_n: Float64Array[];
    line_far_tension_n: Float64Array[];
    anchor_force_n: Float64Array[];
  };
  notes: ({ kind: string } & Record<string, unknown>)[];
  assumed: { parameter: string; value: string }[];
  work: { steps: number; attempts: number };
}

/** An extreme and the run that gave it. */
export interface Limit {
  run: Run;
  extreme: Extreme;
}

export interface NamedForce {
  name: string;
  force: Limit;
}

export interface WallLimit {
  wall: string;
  least: Limit;
}

export interface Outlook {
  stiff: Flight;
  soft: Flight;
  body_force: Limit;
  ropes: NamedForce[];
  lines_near: NamedForce[];
  lines_far: NamedForce[];
  lowest: Limit;
  exit_clearance: WallLimit | null;
  clearances: WallLimit[];
  notes: ({ kind: string } & Record<string, unknown>)[];
}

/** Follow a jump with the ropes of one run, stiff or soft, over its whole history. */
export function fly(jump: Jump): Flight;

/** Run a jump with stiff and with soft ropes and take each limit from the right run. */
export function outlook(jump: Jump): Outlook;
