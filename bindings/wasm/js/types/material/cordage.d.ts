import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

/** How far cordage stretches: exactly one of these forms. */
export type Stretch =
  | { axial_rigidity: QuantityLike }
  | { elongation: RatioLike; at: QuantityLike }
  | { table: readonly (readonly [QuantityLike, RatioLike])[] }
  | { en892_static_elongation: RatioLike }
  | { en892_impact_force: QuantityLike }
  | { en1891_elongation: RatioLike };

/** The standard linear solid: one rope with two rigidities. */
export interface Viscoelastic {
  long_term: Quantity;
  arm: Quantity;
  relaxation_time: Quantity;
}

/** The same as an argument. */
export interface ViscoelasticLike {
  long_term: QuantityLike;
  arm: QuantityLike;
  relaxation_time: QuantityLike;
}

/** A rope, webbing or cord, per rest length. */
export interface Cordage {
  name: string;
  linear_density: QuantityLike;
  stretch: Stretch;
  viscoelastic?: ViscoelasticLike;
  breaking_strength: QuantityLike;
  diameter?: QuantityLike;
}

/** What has happened to cordage since its rest length was measured; nothing, where left out. */
export interface Condition {
  temperature_change?: QuantityLike;
  expansion?: QuantityLike;
  wet_change?: RatioLike;
  creep?: RatioLike;
  permanent_set?: RatioLike;
}

/** Rest length now over the rest length before a change of temperature, water, creep and set. */
export function rest_length_factor(input: { condition: Condition }): Quantity;

/** Strain on the rest length at a tension. */
export function strain(input: { stretch: Stretch; tension: QuantityLike }): Quantity;

/** Tension at a strain, the inverse of `strain`. */
export function tension(input: { stretch: Stretch; strain: RatioLike }): Quantity;

/** Axial rigidity for a small change about a tension. */
export function tangent_rigidity(input: { stretch: Stretch; tension: QuantityLike }): Quantity;

/** Whether a tension is past the last point of a table, where the curve goes on straight. */
export function is_past_table(input: { stretch: Stretch; tension: QuantityLike }): boolean;

/** Standard linear solid of a dynamic rope from its two EN 892 figures. */
export function viscoelastic_from_en892(input: {
  static_elongation: RatioLike;
  impact_force: QuantityLike;
  relaxation_time: QuantityLike;
}): Viscoelastic;

/** Weight per rest length of cordage. */
export function weight(input: { cordage: Cordage }): Quantity;
