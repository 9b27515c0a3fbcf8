import type { ClimbBounce, HaulWork, LoweringHolds } from "./pulley.js";
import type { dropped } from "./fall.js";
import type { Recoil } from "./line.js";
import type { rub_wear } from "./material.js";
import type { Quantity } from "./quantity.js";
import type { Limit, Outlook, Place, WallLimit } from "./swing.js";

/** An anchor after the loss of one part, or of two, under the greatest pull. */
export interface AnchorLoss {
  /** Parts whose loss has this effect; of a pair, one name for each of the two. */
  parts: string[];
  extension: Quantity | null;
  worst_tension: Quantity | null;
  peak_tension: Quantity | null;
  /** The upper bound, where the pull falls as the lines slacken. */
  peak_if_pull_stays: Quantity | null;
  /** How the pull falls with the way of the master point. */
  line_stiffness: Quantity | null;
  worst_leg: string | null;
  factor: Quantity | null;
  weakest: string | null;
  /** Whether a path of legs holds the pull then, the jerk of the loss included. */
  holds: boolean;
  verdict: string;
}

/** One mistake of a document. */
export interface Mistake {
  line: number;
  path: string;
  message: string;
}

export type Triple = [Quantity, Quantity, Quantity];

export interface Table {
  key: string;
  /** Part of the report that it stands in. */
  part: string;
  title: string;
  remark: string;
  head: string[];
  rows: string[][];
  /** Whether its rows are to be ticked off. */
  tick: boolean;
  /** Functions that gave the figures, each with its page of theory. */
  models: { function: string; page: string }[];
  /** Keys of the document that the figures come from. */
  inputs: string[];
}

export interface LineState {
  name: string;
  tension_near: Quantity;
  tension_ring: Quantity;
  tension_far: Quantity;
  sag_below_chord: Quantity;
  sag_below_near: Quantity;
  share: Quantity;
}

export interface StatePlan {
  name: string;
  load: Quantity;
  ring: Triple;
  lines: LineState[];
  residual: Quantity;
}

/** A line or a rope that comes to lie on an edge: the greatest figures over the plan. */
export interface EdgePlan {
  edge: string;
  part: string;
  /** None on bare rock. */
  pad: string | null;
  friction: Quantity | null;
  turn: Quantity;
  contact: Quantity;
  from: string;
  capstan_ratio: Quantity;
  /** Greatest tension behind the edge, when drawn over it. */
  behind: Quantity;
  /** Force per length of contact; none on a sharp edge. */
  pressure: Quantity | null;
  /** Rub in one jump, or in the haul. */
  travel: Quantity;
}

/** The rig in one wind of the document. */
export interface WindPlan {
  name: string;
  /** Along the span, to the left, up. */
  velocity: Triple;
  /** Everything on: standing, and with the jumper's weight and drag at the ring. */
  states: StatePlan[];
  body_force: Limit;
  lowest: Limit;
  /** Farthest to the left, and to the right, that the body was. */
  leftmost: Limit;
  rightmost: Limit;
  exit_clearance: WallLimit | null;
  clearances: WallLimit[];
  /** The largest wind of this direction for each wall; none if its clearance falls short in still air. */
  largest: { wall: string; required: Quantity; largest: Quantity | null; looked_up_to: Quantity }[];
  notes: string[];
}

/** The jump in the full model. */
export interface WavePlan {
  horizon: Quantity;
  lines: {
    line: string;
    /** Whether the checks take these figures. */
    taken: boolean;
    near: Limit;
    far: Limit;
    ring: Limit;
    over_quasi_static: Quantity | null;
  }[];
  anchors: { anchor: string; peak: Limit }[];
  body_force: Limit | null;
  lowest: Limit | null;
  rope_clearances: { wall: string; rope: string; least: Quantity; time: Quantity; place: Place }[];
  notes: string[];
}

export interface StrengthCheck {
  component: string;
  place: string;
  demand: Quantity;
  from: string;
  strength: Quantity;
  factors: { name: string; low: Quantity; high: Quantity; source: string }[];
  derated: Quantity;
  derated_high: Quantity;
  factor: Quantity;
  required: Quantity;
  shortfall: Quantity;
  falls_short: boolean;
}

export interface ForceCheck {
  what: string;
  force: Quantity;
  limit: Quantity;
  excess: Quantity;
  from: string;
  falls_short: boolean;
}

export interface ClearanceCheck {
  what: string;
  clearance: Quantity;
  required: Quantity;
  shortfall: Quantity;
  from: string;
  falls_short: boolean;
}

export interface HaulPlan {
  steps: {
    rope_out: Quantity;
    pull: Quantity;
    body: Triple;
    ring: Triple;
    jump_ropes: Quantity;
    below_level: Quantity;
    clearance: Quantity | null;
  }[];
  pull: Quantity;
  pull_over_edge: Quantity;
  pull_behind_pulley: Quantity;
  ideal_advantage: Quantity;
  actual_advantage: Quantity;
  hand_force: Quantity;
  holding_force: Quantity;
  people_needed: number;
  people: number;
  haul_rope: Quantity;
  rope_through_hands: Quantity;
  resets: number;
  work: Quantity;
  system_anchor: Quantity;
  lead_pulley: Quantity;
  /** As if the greatest pull lasted all the way. */
  at_most: HaulWork;
  /** The same lift with every ordinary system. */
  compared: { each: HaulWork[]; least: string | null };
  frame: {
    load: Triple;
    members: {
      name: string;
      kind: string;
      force: Quantity;
      friction_needed: Quantity | null;
      buckles_at: Quantity | null;
    }[];
    /** By how much the haul rope may swing aside. */
    margin: Quantity | null;
    problem: string | null;
  } | null;
}

/** A second person out to a stuck jumper, and the way down. */
export interface RescuePlan {
  two: StatePlan;
  lower_by: Quantity;
  stiffness: Quantity;
  climb: ClimbBounce;
  lowering: {
    height: Quantity | null;
    rope_needed: Quantity | null;
    rope_left: Quantity | null;
    reaches: boolean;
    one: LoweringHolds;
    both: LoweringHolds;
    on_pulley: Quantity;
    state: StatePlan;
  } | null;
}

export type LossOutcome =
  | "carries_nothing"
  | "held"
  | "short"
  | "breaks"
  | "hits"
  | "falls"
  | "no_answer";

/** One loss in one of the three ways. */
export interface LossResult {
  state: string;
  carries: Quantity | null;
  takes_load: {
    component: string;
    before: Quantity;
    peak: Quantity;
    /** Of a part of an anchor whose lines slacken: the upper bound. */
    peak_if_pull_stays: Quantity | null;
  } | null;
  /** Drop of the ring, travel of the master point or of the head of the frame. */
  extension: Quantity | null;
  body_lower: Quantity | null;
  body_force: Quantity | null;
  factor: Quantity | null;
  weakest: string | null;
  clearance: Quantity | null;
  wall: string | null;
  outcome: LossOutcome;
  verdict: string;
  /** Lines too slow for their quasi-static tension: a snap may be several times the figures. */
  slow_lines: string[];
  notes: string[];
}

/** What the loss of a part, or of several components in series, does. */
export interface Loss {
  parts: string[];
  gone: string;
  absent_before: LossResult;
  lost_at_rest: LossResult;
  lost_at_worst_instant: LossResult;
}

export interface LossTable {
  verdict: string;
  required: Quantity;
  /** Every component, with the number of its entry in `single`. */
  components: { name: string; at: string; kind: string; loss: number }[];
  single: Loss[];
  pairs: Loss[];
  motions: number;
  notes: string[];
}

export type Side = "near" | "far";

/** A thing to bring, or several equal ones. */
export interface KitPiece {
  name: string;
  /** Name of the cordage that it is cut from, or kind of gear. */
  kind: string;
  cut: boolean;
  side: Side;
  count: number;
  length: Quantity | null;
  made_of: string;
  mass: Quantity | null;
  strength: Quantity | null;
  from: string;
}

export interface KitList {
  pieces: KitPiece[];
  bags: {
    side: Side;
    number: number;
    mass: Quantity;
    things: { name: string; count: number }[];
    /** Whether it holds one thing that is heavier than the limit. */
    over: boolean;
  }[];
  spares_rule: string;
  notes: string[];
}

/** What the store covers of the kit. */
export interface KitCheck {
  falls_short: boolean;
  verdict: string;
  needs: {
    name: string;
    kind: string;
    side: Side;
    needed: number;
    covered: number;
    answer: string;
    falls_short: boolean;
  }[];
  /** Which stock rope gives which pieces. */
  cuts: {
    stock: string;
    kind: string;
    length: Quantity;
    pieces: { name: string; length: Quantity }[];
    left: Quantity;
  }[];
  tables: Table[];
}

export interface Plan {
  /** Version of the form of this result. */
  version: number;
  rig: string;
  note: string | null;
  /** How many checks fall short, and which. */
  verdict: string;
  cautions: string[];
  lines: {
    name: string;
    chord: Quantity;
    rest_length: Quantity;
    near_length: Quantity;
    mass: Quantity;
    from: string;
  }[];
  states: StatePlan[];
  person: StatePlan[];
  sweep: { state: StatePlan; stiffness_along: Quantity; stiffness_vertical: Quantity }[];
  engagement: { line: string; load: Quantity | null; from_start: boolean }[];
  waiting: { ring: Triple; pull: Triple; pull_size: Quantity; lowest: Quantity };
  jump: Outlook;
  /** The full model, where the reduced one is not valid for a line. */
  waves: WavePlan | null;
  /** The rig in each wind of the document. */
  winds: WindPlan[];
  bag: Outlook | null;
  /** The same in the full model, where the reduced one is not valid for a line. */
  bag_waves: WavePlan | null;
  line_mass: { fraction: Quantity; body_force: Quantity; lowest: Quantity }[];
  losses: LossTable;
  cut: {
    rope: string;
    tie_in_to_tie_in: Quantity;
    cut: Quantity;
    error: Quantity;
    mass: Quantity;
  }[];
  rope_sensitivity: { what: string; per_rope_length: Quantity }[];
  anchors: {
    name: string;
    pull: Triple;
    pull_size: Quantity;
    from: string;
    /** `share` is what a leg hands to its fixing; none for one that begins at a knot. */
    legs: {
      name: string;
      tension: Quantity;
      share: Quantity | null;
      factor: Quantity | null;
      governed_by: string | null;
    }[];
    knots: { name: string; position: Triple; loose: boolean }[];
    /** Fixings with a name. */
    fixings: {
      name: string;
      force: Triple;
      size: Quantity;
      factor: Quantity | null;
      /** As a bolt, a tree or a block, where the document says that it is one. */
      hold: {
        kind: "bolt" | "tree" | "block";
        tension: Quantity | null;
        shear: Quantity | null;
        factor: Quantity | null;
        limit: Quantity | null;
        how: string;
        answered: boolean;
      } | null;
    }[];
    factor: Quantity | null;
    weakest: string | null;
    /** Which losses leave a path that holds, in words. */
    redundancy: string;
    lost: AnchorLoss[];
    pairs: AnchorLoss[];
  }[];
  haul: HaulPlan | null;
  rescue: RescuePlan | null;
  checks: {
    strength: StrengthCheck[];
    force: ForceCheck[];
    clearance: ClearanceCheck[];
    other: { what: string; answer: string; falls_short: boolean }[];
  };
  /** What to bring, side by side and bag by bag. */
  kit: KitList;
  /** Stops of the ring in the jump. */
  stops: {
    name: string;
    anchor: string;
    travel: Quantity;
    length: Quantity;
    tension: Limit;
  }[];
  /** Lines, jump ropes and the haul rope on edges, and the corners of the terrain that they touch. */
  edges: EdgePlan[];
  /** What rubs in one jump. */
  rubs: {
    part: string;
    place: string;
    wear: ReturnType<typeof rub_wear>;
    from: string;
  }[];
  /** Rest of each jump rope between jumps. */
  rests: { rope: string; strain: Quantity; by_model: Quantity | null; wait: Quantity | null }[];
  /** Where dropped things may land. */
  drops: { thing: string; place: string; height: Quantity; zone: ReturnType<typeof dropped> }[];
  /** Lines that break. */
  breaks: { line: string; at: string; towards: string; tension: Quantity; recoil: Recoil }[];
  assumptions: { what: string; value: string; why: string }[];
  /** Every value of the document. */
  inputs: { key: string; value: string }[];
  notes: string[];
  /** The results as tables for people. */
  tables: Table[];
  /** SVG drawings. */
  pictures: { side_view: string; force: string; haul: string | null };
}

/** What a CSV of the store covers of a kit. Throws a DocumentError with every mistake; its path is the column. */
export function kit_check(input: { kit: KitList; inventory: string }): KitCheck;

/** Read and plan a rig document, TOML or JSON. Throws a DocumentError with every mistake. */
export function plan_text(input: { text: string }): Plan;

/** What a report shows of a plan. */
export type Report = Pick<Plan, "rig" | "note" | "verdict" | "cautions" | "tables" | "pictures" | "notes">;

/** The report of a plan. HTML is one file that runs no scripts; names never become markup. */
export function report_text(input: { plan: Report; format: "text" | "markdown" | "html" }): string;

/** The loss table of a rig document; `loss_table` also tells how far it is. */
export function loss_table_text(input: { text: string; options: { pairs?: boolean } }): LossTable;

/** JSON Schema of a rig document. */
export function schema(): string;
