import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Chain, ChainProfile, Series, Vector, VectorLike } from "./solve.js";

export type { ChainProfile } from "./solve.js";

/** A gust, and what it meets of a line; `air_density` is 1.25 kg/m³ if left out. */
export interface Gust {
  drag_coefficient: RatioLike;
  width: QuantityLike;
  air_density?: QuantityLike;
  velocity: VectorLike;
}

/** Position, tension, strain and slope of a chain at rest lengths from its near end. */
export function chain_at(input: { chain: Chain; s_m: Series }): ChainProfile;

/** The same at horizontal positions: for each x, all points of the chain there. */
export function chain_at_x(input: { chain: Chain; x_m: Series }): ChainProfile[];

/** Force of a gust on a line per rest length: only the part of the wind across the line acts. */
export function wind_load(input: { gust: Gust; direction: VectorLike }): Vector;
