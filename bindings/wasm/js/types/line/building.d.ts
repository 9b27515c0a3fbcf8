import type { Stretch } from "../material.js";
import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { BundleLine, Chain, ElasticLine, LineNote, Vector, VectorLike } from "./solve.js";
import type { StandingLine } from "./tensioning.js";

/** A person on the main, with lines in tow from anchors of their own. */
export interface GoingOut {
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
}

/** A named stage of building or striking. */
export interface BuildingStage {
  name: string;
  rig:
    | { line: Chain }
    | { going_out: GoingOut }
    | { ringed: { lines: readonly BundleLine[]; load: VectorLike } };
}

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

/** A tackle, its people, and the tension they want. */
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

/** The line after each stroke. */
export interface StrokeList {
  outcome: "reached" | "pull_reached" | "no_gain" | "strokes_used_up";
  rope_pulled_m: number[];
  drawn_in_m: number[];
  peak_tension_n: number[];
  tension_n: number[];
  hand_force_n: number[];
  sag_below_chord_m: number[];
  rope_pulled: Quantity;
  rest_length: Quantity;
  tension: Quantity;
  pull_limit: Quantity;
  notes: LineNote[];
}

/** A standing line, let go over a friction device; down to no tension if `to` is left out. */
export interface SoftRelease {
  line: ElasticLine;
  end: "near" | "far";
  to?: QuantityLike;
  capstan_ratio: RatioLike;
  samples?: number;
}

/** The release, point by point. */
export interface SoftReleaseCurve {
  paid_out_m: number[];
  through_m: number[];
  tension_n: number[];
  hand_force_n: number[];
  sag_below_chord_m: number[];
  stored_j: number[];
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

/** A line with hardware that gives at a force. */
export interface GivingLine {
  line: Chain;
  hardware: {
    at: QuantityLike;
    kind:
      | { slips: { force: QuantityLike; hold: QuantityLike; length: QuantityLike } }
      | { absorbs: { force: QuantityLike; length: QuantityLike } }
      | { breaks: { force: QuantityLike; backup_length?: QuantityLike } };
  };
}

/** What is left after the hardware gave. */
export interface HardwareGives {
  acts: boolean;
  before: StandingLine;
  after: StandingLine | null;
  tension_before: Quantity;
  tension_after: Quantity | null;
  slip: Quantity;
  let_off: Quantity;
  dissipated: Quantity;
  notes: (
    | { dynamic_overshoot: { energy: Quantity; most_slip: Quantity } }
    | "ran_out"
    | "parted"
  )[];
}

/** Tensions, sags and lowest points of named stages, one after the other. */
export function building_states(input: { stages: readonly BuildingStage[] }): StageState[];

/** The tension of a line stroke by stroke of a tackle, up to the wanted one or the people's pull. */
export function tension_by_strokes(strokes: Strokes): StrokeList;

/** Stored energy of a line, and its soft release over a friction device. */
export function soft_release(release: SoftRelease): SoftReleaseCurve;

/** The new rest of a line after a lock has slipped, an absorber torn or a weak spot broken. */
export function hardware_gives(line: GivingLine): HardwareGives;
