import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";

export interface Fall {
  mass: QuantityLike;
  height: QuantityLike;
  rope: QuantityLike;
  /** How the rope stretches, such as `{ axial_rigidity: "20 kN" }`. */
  stretch: Record<string, unknown>;
  span_stiffness?: QuantityLike;
}

export interface Arrest {
  impact_force: Quantity;
  strain: Quantity;
  extension: Quantity;
  span_deflection: Quantity;
  drop: Quantity;
  energy: Quantity;
  residual: number;
  notes: ("past_table" | "factor_above_two" | "still_falling" | "line_answers_late")[];
}

export interface EdgeEnd {
  arrest: Arrest;
  belay_force: Quantity;
  anchor_load: Quantity;
}

/** Stop a fall by energy balance on any stretch, with or without a span that gives. */
export function arrest(fall: Fall): Arrest;

/** Stop a fall over an edge: the truth lies between the two ends. */
export function arrest_over_edge(input: {
  fall: Fall;
  edge: { belay_rope: QuantityLike; wrap: QuantityLike; mu: RatioLike };
}): { frictionless: EdgeEnd; full_friction: EdgeEnd };

/** Check the figures of a dynamic rope against the limits of EN 892. */
export function en892_checks(input: {
  class: "single" | "half" | "twin";
  figures: {
    impact_force?: QuantityLike;
    static_elongation?: RatioLike;
    dynamic_elongation?: RatioLike;
  };
}): {
  figure: "impact_force" | "static_elongation" | "dynamic_elongation";
  of_limit: number;
  within: boolean;
}[];

/** Fall factor: height fallen over rest length of rope. */
export function fall_factor(input: { height: QuantityLike; rope: QuantityLike }): Quantity;

/** Peak tension at a rigid mass that a linear rope stops. */
export function impact_force(input: {
  mass: QuantityLike;
  fall_factor: RatioLike;
  axial_rigidity: QuantityLike;
}): Quantity;

/** Axial rigidity that a rated impact force implies, the inverse of `impact_force`. */
export function implied_axial_rigidity(input: {
  mass: QuantityLike;
  fall_factor: RatioLike;
  impact_force: QuantityLike;
}): Quantity;

/** Stiffness of a rope and a span one after the other. */
export function series_stiffness(input: { rope: QuantityLike; span: QuantityLike }): Quantity;
