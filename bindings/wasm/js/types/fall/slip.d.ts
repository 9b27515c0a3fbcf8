import type { Quantity, QuantityLike } from "../quantity.js";
import type { Arrest, Fall } from "./stop.js";

/** A device or a knot that slips at a force. */
export interface Slip {
  force: QuantityLike;
  travel: QuantityLike;
}

/** What a device has done. */
export interface SlipState {
  slipped: Quantity;
  energy: Quantity;
  at_end: boolean;
}

/** Stop a fall through devices or knots that slip. */
export function arrest_with_slip(input: { fall: Fall; slips: readonly Slip[] }): {
  arrest: Arrest;
  slips: SlipState[];
};
