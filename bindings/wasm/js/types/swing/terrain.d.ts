import type { Quantity, QuantityLike } from "../quantity.js";
import type { Thing, Track } from "./apart.js";
import type { Place, PlaceLike, Wall } from "./jump.js";

/** A mesh of triangles: the content of one file, and how it lies in the frame of the span. */
export type TerrainMesh = (
  | { obj: string }
  | { stl: string }
  /** The bytes, or their base64. */
  | { stl_binary: Uint8Array | string }
) & {
  /** Length of one unit of the file. */
  scale: QuantityLike;
  /** Axis of the file that points up. */
  up: "y" | "z";
  /** Where the origin of the file lies; that of the span if left out. */
  origin?: PlaceLike;
  /** Turn about the vertical, to the left as seen from above. */
  turn?: QuantityLike;
};

export interface TerrainFacts {
  triangles: number;
  low: Place;
  high: Place;
  area: Quantity;
  longest_side: Quantity;
  /** Greatest rounding of a coordinate by the format. */
  rounding: Quantity;
}

/** Size and place of a mesh, to see that scale, up axis and placing are right. */
export function terrain_facts(mesh: TerrainMesh): TerrainFacts;

export interface ClearanceCase {
  walls: Wall[];
  t_s: ArrayLike<number>;
  /** Where the ropes are tied to the body: its centre, if it is a ball. */
  body: Track;
  radius: QuantityLike;
  /** Length of a capsule that hangs from there, at least twice the radius; none for a ball. */
  length?: QuantityLike;
  /** What the capsule hangs away from, such as the ring; upright if left out. */
  towards?: Track;
  /** The capsule is upright while `towards` is nearer than this; never if left out. */
  rope_length?: QuantityLike;
}

export interface WallHistory {
  wall: string;
  /** Distance of the surfaces at each sample. */
  clearance_m: Float64Array;
  /** Nearest approach, between samples too. */
  least: Quantity;
  time: Quantity;
  place: Place;
  wall_place: Place;
  touched: Quantity | null;
}

/** Distance of a body from walls along a path: at each sample, and the nearest approach. */
export function clearance_history(input: ClearanceCase): { walls: WallHistory[] };

/** Distance of ropes from walls along a motion: at each sample, and the nearest approach. */
export function rope_clearance_history(input: {
  walls: Wall[];
  t_s: ArrayLike<number>;
  /** Ring and body, or more points on the way, joined by straight pieces. */
  ropes: Thing[];
}): { ropes: { rope: string; walls: WallHistory[] }[] };
