/** A number with its unit. */
export interface Quantity {
  value: number;
  unit: string;
}
/** What a function takes for a quantity: `"22 kN"` or `{ value: 22, unit: "kN" }`. */
export type QuantityLike = string | Quantity;
/** What a function takes for a ratio: also a plain number. */
export type RatioLike = string | number | Quantity;
