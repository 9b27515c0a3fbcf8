import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Point, Vector } from "./legs.js";

/** Cross-section of a pole. */
export type PoleSection =
  | { round: { diameter: QuantityLike } }
  /** Solid and round, thinner towards one end, like a trunk. */
  | { cone: { thick: QuantityLike; thin: QuantityLike } }
  | { tube: { outer: QuantityLike; wall: QuantityLike } };

/** Figures of a material, from least to greatest, with their source. */
export interface PoleFigures<Q = QuantityLike, R = RatioLike> {
  young_modulus_low: Q;
  young_modulus_high: Q;
  strength_low: Q;
  strength_high: Q;
  imperfection: R;
  plateau: R;
  source: string;
}

/** A leg as a column; pinned at both ends unless it has an effective length factor. */
export interface Pole {
  section: PoleSection;
  material: "softwood" | "aluminium" | "steel" | { own: PoleFigures };
  effective_length_factor?: RatioLike;
}

/** What a pole can take, with the least and the greatest figures of its material. */
export interface Buckling {
  slenderness: Quantity;
  euler_low: Quantity;
  euler_high: Quantity;
  crushing_low: Quantity;
  crushing_high: Quantity;
  capacity_low: Quantity;
  capacity_high: Quantity;
  figures: PoleFigures<Quantity, Quantity>;
  notes: ("stocky" | "thin_end")[];
}

/** One leg of a frame. */
export interface FrameLeg {
  name: string;
  foot: Point;
  axial_rigidity: QuantityLike;
  mass?: QuantityLike;
  pole?: Pole;
  /** Out of the ground, of any length; straight up if left out. */
  ground_normal?: readonly [number, number, number];
}

/** One guy of a frame. */
export interface FrameGuy {
  name: string;
  foot: Point;
  axial_rigidity: QuantityLike;
  pretension?: QuantityLike;
  strength?: QuantityLike;
}

/** A rope that ends at the head. */
export interface HeadRope {
  name: string;
  towards: Point;
  tension: QuantityLike;
}

/** A rope that turns in a pulley at the head; `behind` is the tension of its other part over that of the load. */
export interface HeadPulley {
  name: string;
  load: Point;
  haul: Point;
  tension: QuantityLike;
  behind?: RatioLike;
}

/** Legs and guys to one head, and what pulls on it. */
export interface Frame {
  head: Point;
  legs: readonly FrameLeg[];
  guys?: readonly FrameGuy[];
  ropes?: readonly HeadRope[];
  pulleys?: readonly HeadPulley[];
  force?: Point;
  /** A rope round the feet of these legs, and the friction of the feet. */
  hobble?: { round: readonly string[]; friction?: RatioLike };
}

/** A factor with the least and with the greatest figures of the material. */
export interface FactorRange {
  low: Quantity;
  high: Quantity;
}

/** Force of one leg or guy. */
export interface MemberForce {
  name: string;
  force: Quantity;
  /** The same before the ropes pull, in a frame with pretension. */
  before?: Quantity;
  idle: boolean;
  /** By how much a foot lifts, a guy hangs slack. */
  gap?: Quantity;
  on_ground: Vector;
  thrust?: Quantity;
  friction_needed?: Quantity;
  factor?: FactorRange;
}

/** What a hobble does for its feet. */
export interface HobbleForces {
  friction_without: Quantity;
  friction_least: Quantity;
  tension: Quantity;
  holding?: { low: Quantity; high?: Quantity };
}

/** A frame under its load. */
export interface FrameForces {
  load: Vector;
  legs: MemberForce[];
  guys: MemberForce[];
  hobble?: HobbleForces;
  displacement: Vector;
  residual: number;
  iterations: number;
  notes: ("balanced" | "leg_lifts" | "guy_slack" | "large_displacement")[];
}

/** Directions in which one rope may pull at its tension. */
export interface FrameWindow {
  stands: boolean;
  /** Below zero for a frame that falls. */
  margin?: Quantity;
  /** The nearest first. */
  sides: {
    carried_by: string[];
    margin: Quantity;
    rope_there: [number, number, number];
    inward: [number, number, number];
  }[];
  notes: ("any_direction" | "no_direction" | "no_room")[];
}

/** The worst of one leg or guy over a lift. */
export interface MemberWorst {
  name: string;
  force: Quantity;
  at: number;
  friction_needed?: Quantity;
  factor?: FactorRange;
  idle_at: number[];
}

/** A frame through a lift. */
export interface FrameLift {
  steps: {
    load: Vector;
    tilt: Quantity;
    bearing?: Quantity;
    margin?: Quantity;
    /** Absent where the frame falls. */
    forces?: FrameForces;
  }[];
  legs: MemberWorst[];
  guys: MemberWorst[];
  falls_at?: number;
  margin?: Quantity;
}

/** A frame that stands without a guy. */
export interface StandsAfter {
  rest: FrameForces;
  travel: Vector;
  energy_released: Quantity;
  peaks: { name: string; force: Quantity; dynamic_factor?: Quantity; factor?: FactorRange }[];
  residual: number;
}

/** What the loss of a guy does. */
export interface GuyLoss {
  before: FrameForces;
  /** `falls` is the force that starts to move the head. */
  after: { stands: StandsAfter } | { falls: Vector };
}

/** Forces of a raised frame: legs that push, guys that pull, footings, hobble. */
export function frame_forces(input: Frame): FrameForces;

/** In which directions a rope or the load's part of a pulley may pull: the sides of this window. */
export function frame_window(input: { frame: Frame; rope: string }): FrameWindow;

/** The frame at each place of a lift: the resultant, the margin, the worst of each leg and guy. */
export function frame_lift(input: {
  frame: Frame;
  rope: string;
  places: readonly { load: Point; tension: QuantityLike }[];
}): FrameLift;

/** Cuts a guy: the frame falls, with the force that starts it, or stands again after peaks. */
export function lose_guy(input: { frame: Frame; guy: string }): GuyLoss;

/** Compression that a pole can take: Euler's load, crushing, and the capacity of a real column. */
export function buckling(input: { pole: Pole; length: QuantityLike }): Buckling;
