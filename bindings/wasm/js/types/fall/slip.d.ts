import type { Quantity, QuantityLike } from "../quantity.js";
import type { Arrest, Fall } from "./stop.js";

/** A device or a knot that slips at a force. */
export interface Slip {
  force: QuantityLike;
  travel: QuantityLike;
}

/** Stop a fall through devices or knots that slip. */
export function arrest_with_slip(input: { fall: Fall; slips: readonly Slip[] }): {
  arrest: Arrest;
  slips: { slipped: Quantity; energy: Quantity; at_end: boolean }[];
};
