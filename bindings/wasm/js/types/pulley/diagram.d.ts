import type { QuantityLike } from "../quantity.js";
import type { System } from "./network.js";

/** A picture of a system as SVG: every rope part with its force, every body with what it carries. */
export function diagram(input: {
  system: System;
  load: QuantityLike;
  shown: "raising" | "lowering" | "held";
}): string;
