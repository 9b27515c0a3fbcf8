import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Track } from "./apart.js";
import type { Extreme, Place, PlaceLike } from "./jump.js";
import type { TerrainMesh } from "./terrain.js";

/** A straight edge of rock: a segment, or a corner of a profile, level along y and without ends. */
export type RockEdge =
  | { kind: "segment"; from: PlaceLike; to: PlaceLike }
  | { kind: "corner"; at: PlaceLike };

export interface RopeEdgeCase {
  t_s: ArrayLike<number>;
  /** Where the rope is tied: one value for a fixed anchor, or a path. */
  anchor: Track;
  /** The other end. */
  body: Track;
  /** Tension at the body: one value, or one for each time. */
  tension_n: ArrayLike<number>;
  edge: RockEdge;
  /** The rope lies over the edge at the first sample. */
  starts_over?: boolean;
  /** Friction of rope on rock. */
  mu: RatioLike;
  /** For the rope that stretches over the edge; none for a rope that does not stretch. */
  axial_rigidity?: QuantityLike;
}

export interface EdgeTouch {
  begins: Quantity;
  place: Place;
  ends: Quantity;
  ending: "lifts_off" | "slips_off" | "last";
}

export interface RopeOnEdge {
  first_touch: Quantity | null;
  touches: EdgeTouch[];
  /** At a sample, and where on the edge. */
  greatest_turn: Extreme | null;
  greatest_force: Extreme | null;
  rub_along_rope: Quantity;
  rub_along_edge: Quantity;
  /** Both together. */
  rub: Quantity;
  /** Angle over the edge at each sample; zero while the rope is free. */
  turn_rad: Float64Array;
  /** Force on the edge without friction. */
  force_n: Float64Array;
  /** Greatest force on the edge with friction. */
  force_most_n: Float64Array;
  /** Least and greatest tension behind the edge. */
  behind_low_n: Float64Array;
  behind_high_n: Float64Array;
  /** Rub up to each sample. */
  rub_m: Float64Array;
}

/** When a rope touches an edge along a known motion of its ends, how hard, and how far it rubs. */
export function rope_on_edge(input: RopeEdgeCase): RopeOnEdge;

/** How the triangles of a mesh meet in an edge. */
export type Meet = "ridge" | "valley" | "rim" | "unclear";

export interface MeshEdge {
  edge: { kind: "segment"; from: Place; to: Place };
  meet: Meet;
  /** Zero where both triangles lie in one plane; null where it has no meaning. */
  fold: Quantity | null;
}

/** Every edge of a mesh that folds by at least an angle, and every rim. */
export function mesh_edges(input: { mesh: TerrainMesh; least_fold: QuantityLike }): MeshEdge[];

export interface RopeMeshCase extends Omit<RopeEdgeCase, "edge" | "starts_over"> {
  mesh: TerrainMesh;
  /** Edges that fold by less are not looked at. */
  least_fold: QuantityLike;
  /** Valleys too: for a file whose triangles turn the other way. */
  valleys?: boolean;
}

/** Every edge of a mesh that a rope comes to lie over, each as if it were the only one. */
export function rope_on_mesh(input: RopeMeshCase): {
  looked_at: number;
  /** The one pressed hardest first. */
  touched: { edge: MeshEdge; rope: RopeOnEdge }[];
  unclear: { edge: MeshEdge; reason: string }[];
};
