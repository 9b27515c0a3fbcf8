import type { Quantity } from "../quantity.js";
import type { Chain, ElasticLine } from "./solve.js";

/** Derivatives of a tension of a line; by the axial rigidity null for a curve. */
export interface ForceByLine {
  by_span_n_per_m: number;
  by_rise_n_per_m: number;
  by_rest_length_n_per_m: number;
  by_weight_m: number;
  by_axial_rigidity: number | null;
  by_strain_scale_n: number;
}

/** Derivatives of a length of a line. */
export interface LengthByLine {
  by_span: number;
  by_rise: number;
  by_rest_length: number;
  by_weight_m2_per_n: number;
  by_axial_rigidity_m_per_n: number | null;
  by_strain_scale_m: number;
}

/** Derivatives of the figures of a line by every input. */
export interface ElasticDerivatives {
  tension_near: ForceByLine;
  tension_far: ForceByLine;
  h: ForceByLine;
  sag_below_chord: LengthByLine;
  stretched_length: LengthByLine;
  residual: Quantity;
}

/** Exact derivatives of the figures of `solve_elastic`. */
export function elastic_derivatives(line: ElasticLine): ElasticDerivatives;

/** Derivatives of a tension of a chain; lists follow its loads and its pieces. */
export interface ForceByChain {
  by_load_x: Float64Array;
  by_load_y: Float64Array;
  by_load_z: Float64Array;
  by_load_at_n_per_m: Float64Array;
  by_rest_length_n_per_m: Float64Array;
  by_axial_rigidity: (number | null)[];
  by_strain_scale_n: Float64Array;
  by_near_n_per_m: [number, number, number];
  by_far_n_per_m: [number, number, number];
}

/** Derivatives of a length of a chain. */
export interface LengthByChain {
  by_load_x_m_per_n: Float64Array;
  by_load_y_m_per_n: Float64Array;
  by_load_z_m_per_n: Float64Array;
  by_load_at: Float64Array;
  by_rest_length: Float64Array;
  by_axial_rigidity_m_per_n: (number | null)[];
  by_strain_scale_m: Float64Array;
  by_near: [number, number, number];
  by_far: [number, number, number];
}

/** Derivatives of the figures of a chain by its loads, pieces and anchors. */
export interface ChainDerivatives {
  tension_near: ForceByChain;
  tension_far: ForceByChain;
  h_near: ForceByChain;
  sag_below_chord: LengthByChain;
  stretched_length: LengthByChain;
  residual: Quantity;
}

/** Exact derivatives of the figures of `solve_chain`. */
export function chain_derivatives(chain: Chain): ChainDerivatives;
