import type { Quantity, QuantityLike } from "../quantity.js";
import type { ElasticLine, Series } from "./solve.js";

/** What a rule says, and what is so, in the unit given: N or m. */
export interface RuleOfThumb {
  name: string;
  formula: string;
  source: string;
  unit: string;
  rule: number;
  exact: number;
  error: Quantity;
}

/** Errors of each rule: a row for each standing tension, a column for each load. */
export interface RuleChart {
  standing_n: Float64Array;
  load_n: Float64Array;
  rest_length_m: Float64Array;
  rules: { name: string; error: Float64Array[] }[];
}

/** What riggers' rules say for a line with a load tied to its middle, what is so, and the error. */
export function rules_of_thumb(input: { line: ElasticLine; load: QuantityLike }): RuleOfThumb[];

/** `rules_of_thumb` over standing tensions and loads. */
export function rules_chart(input: {
  line: ElasticLine;
  standing_n: Series;
  load_n: Series;
}): RuleChart;
