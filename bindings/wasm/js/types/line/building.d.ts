import type { Stretch } from "../material.js";
import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { BundleLine, Chain, ElasticLine, LineNote, Vector, VectorLike } from "./solve.js";
import type { StandingLine } from "./tensioning.js";

/** What stands in a stage: a line alone, a person going out with lines in tow, lines at one ring. */
export type StageKind =
  | { line: Chain }
  | {
      going_out: {
        main: ElasticLine;
        person: QuantityLike;
        at: readonly QuantityLike[];
        trailing: readonly {
          name: string;
          anchor: VectorLike;
          slack: RatioLike;
          weight: QuantityLike;
          stretch: Stretch;
        }[];
      };
    }
  | { ringed: { lines: readonly BundleLine[]; load: VectorLike } };

/** A stage at rest. */
export interface StageState {
  name: string;
  at: Quantity | null;
  load_point: Vector | null;
  lines: {
    name: string;
    tension_near: Quantity;
    tension_far: Quantity;
    greatest: Quantity;
    sag_below_chord: Quantity | null;
    lowest: Quantity;
  }[];
  lowest: Quantity;
  residual: Quantity;
}

/** A line and the tackle that draws it in. */
export interface Strokes {
  line: ElasticLine;
  end: "near" | "far";
  wanted: QuantityLike;
  throw: QuantityLike;
  mechanical_advantage: RatioLike;
  efficiency: RatioLike;
  people: number;
  pull_each: QuantityLike;
  back_slip?: QuantityLike;
  most_strokes?: number;
}

/** One value for each stroke, in SI, and how it ends. */
export interface StrokeList {
  outcome: "reached" | "pull_reached" | "no_gain" | "strokes_used_up";
  rope_pulled_m: Float64Array;
  drawn_in_m: Float64Array;
  peak_tension_n: Float64Array;
  tension_n: Float64Array;
  hand_force_n: Float64Array;
  sag_below_chord_m: Float64Array;
  rope_pulled: Quantity;
  rest_length: Quantity;
  tension: Quantity;
  pull_limit: Quantity;
  notes: LineNote[];
}

/** A line that stands, and how it is let go. */
export interface SoftRelease {
  line: ElasticLine;
  end: "near" | "far";
  to?: QuantityLike;
  capstan_ratio: RatioLike;
  samples?: number;
}

/** The way down, in SI, and its sums. */
export interface SoftReleaseCurve {
  paid_out_m: Float64Array;
  through_m: Float64Array;
  tension_n: Float64Array;
  hand_force_n: Float64Array;
  sag_below_chord_m: Float64Array;
  stored_j: Float64Array;
  stored: Quantity;
  stored_if_even: Quantity;
  released: Quantity;
  let_down: Quantity;
  work: Quantity;
  paid_out: Quantity;
  hand_force: Quantity;
  rest_length: Quantity;
  imbalance: Quantity;
  notes: LineNote[];
}

/** What hardware does at its force. */
export type HardwareKind =
  | { slips: { force: QuantityLike; hold: QuantityLike; length: QuantityLike } }
  | { absorbs: { force: QuantityLike; length: QuantityLike } }
  | { breaks: { force: QuantityLike; backup_length?: QuantityLike } };

/** A line with hardware in it. */
export interface GivingLine {
  line: Chain;
  hardware: { at: QuantityLike; kind: HardwareKind };
}

/** A remark on an answer at rest. */
export type SlipNote =
  | { dynamic_overshoot: { energy: Quantity; most_slip: Quantity } }
  | "ran_out"
  | "parted";

/** Before and after; nothing after if the line has parted. */
export interface HardwareGives {
  acts: boolean;
  before: StandingLine;
  after: StandingLine | null;
  tension_before: Quantity;
  tension_after: Quantity | null;
  slip: Quantity;
  let_off: Quantity;
  dissipated: Quantity;
  notes: SlipNote[];
}

/** Tensions, sags and lowest points of named stages, one after the other. */
export function building_states(input: {
  stages: readonly { name: string; rig: StageKind }[];
}): StageState[];

/** Tension stroke by stroke with a tackle; stops where the pull of the people is reached. */
export function tension_by_strokes(input: Strokes): StrokeList;

/** Stored energy of a line and its soft release over a friction device. */
export function soft_release(input: SoftRelease): SoftReleaseCurve;

/** The new rest of a line after a lock has slipped, an absorber torn or a weak spot broken. */
export function hardware_gives(input: GivingLine): HardwareGives;
