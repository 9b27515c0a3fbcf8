import type { Quantity, QuantityLike } from "../quantity.js";

/** A thing that may be dropped. */
export interface DroppedThing {
  height: QuantityLike;
  /** Speed with which it leaves, in any direction. */
  speed?: QuantityLike;
  /** Wind; it needs a mass and a drag area. */
  wind?: QuantityLike;
  mass?: QuantityLike;
  drag_area?: QuantityLike;
  air_density?: QuantityLike;
}

/** Within what radius a dropped or thrown thing lands, and how hard. */
export function dropped(thing: DroppedThing): {
  radius: Quantity;
  radius_without_air: Quantity;
  elevation: Quantity;
  time: Quantity;
  impact_speed: Quantity;
  impact_energy: Quantity | null;
};
