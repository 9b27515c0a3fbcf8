import type { Quantity, QuantityLike } from "../quantity.js";
import type { Point, Vector } from "./legs.js";

/** A leg or a guy of a frame. */
export interface FrameMember {
  name: string;
  foot: Point;
  axial_rigidity: QuantityLike;
}

/** Legs and guys to one head, and what pulls on it. */
export interface Frame {
  head: Point;
  legs: FrameMember[];
  guys?: FrameMember[];
  ropes?: { name: string; towards: Point; tension: QuantityLike }[];
  force?: Point;
}

/** Force of one leg or guy. */
export interface MemberForce {
  name: string;
  force: Quantity;
  idle: boolean;
  on_ground: Vector;
  friction_needed?: Quantity;
}

/** A frame under its load. */
export interface FrameForces {
  load: Vector;
  legs: MemberForce[];
  guys: MemberForce[];
  displacement: Vector;
  residual: number;
  notes: ("balanced" | "large_displacement")[];
}

/** Forces of a raised frame: legs that push, guys that pull, ropes that leave its head. */
export function frame_forces(input: Frame): FrameForces;
