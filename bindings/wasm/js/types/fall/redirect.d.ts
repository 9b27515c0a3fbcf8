import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Slip } from "./slip.js";
import type { Arrest, Fall } from "./stop.js";

export interface EdgesEnd {
  arrest: Arrest;
  belay_force: Quantity;
  edge_loads: Quantity[];
  belay_slip: Quantity;
}

/** Stop a fall over any number of edges: the truth lies between the two ends. */
export function arrest_over_edges(input: {
  fall: Fall;
  /** From the mass to the belay. */
  edges: readonly { belay_rope: QuantityLike; wrap: QuantityLike; mu: RatioLike }[];
  belay?: Slip;
}): { frictionless: EdgesEnd; full_friction: EdgesEnd };

/** Stop a fall on several ropes side by side. */
export function arrest_shared(input: {
  mass: QuantityLike;
  height: QuantityLike;
  ropes: readonly { rope: QuantityLike; stretch: Record<string, unknown>; slack?: QuantityLike }[];
}): {
  impact_force: Quantity;
  drop: Quantity;
  energy: Quantity;
  ropes: { tension: Quantity; strain: Quantity; share: Quantity }[];
  residual: number;
  notes: Arrest["notes"];
};
