import type { Quantity, QuantityLike, RatioLike } from "../quantity.js";
import type { Slip, SlipState } from "./slip.js";
import type { Arrest } from "./stop.js";

export interface DampedFall {
  mass: QuantityLike;
  height: QuantityLike;
  rope: QuantityLike;
  /** Stretch under a lasting load, such as `{ axial_rigidity: "20 kN" }`. */
  stretch: Record<string, unknown>;
  damping:
    | "none"
    | { standard_linear: { arm: QuantityLike; relaxation_time: QuantityLike } }
    | { kelvin_voigt: { retardation_time: QuantityLike } };
  /** Devices and knots in the rope that slip at a force. */
  slips?: readonly Slip[];
  /** A body of which a part hangs soft on the part that the rope holds; rigid if left out. */
  body?: { share: RatioLike; stiffness: QuantityLike; damping: QuantityLike } | null;
  /** Drag coefficient times frontal area; zero if left out. */
  drag_area?: QuantityLike;
  /** 1.2 kg/m³ if left out. */
  air_density?: QuantityLike;
  /** Time to follow, from letting go. */
  duration: QuantityLike;
  thresholds?: readonly QuantityLike[];
  samples?: number;
}

export interface DampedArrest {
  impact_force: Quantity;
  impact_time: Quantity;
  taut_s: number | null;
  extension: Quantity;
  drop: Quantity;
  rebound: { time: Quantity; height: Quantity; slack: boolean } | null;
  above: { force: Quantity; time: Quantity }[];
  books: {
    fall: Quantity;
    stored_at_start: Quantity;
    stored: Quantity;
    lost: Quantity;
    lost_to_drag: Quantity;
    lost_in_slips: Quantity;
    stored_in_body: Quantity;
    lost_in_body: Quantity;
    left: Quantity;
  };
  rest_strain: Quantity;
  slips: SlipState[];
  series: { t_s: Float64Array; force_n: Float64Array; extension_m: Float64Array; speed_m_per_s: Float64Array };
  steps: number;
  residual: number;
  notes: Arrest["notes"];
}

/** Follow a fall on a damped rope in time. */
export function arrest_damped(fall: DampedFall): DampedArrest;

/** Follow falls one after the other on the same rope, which remembers the last. */
export function arrest_repeated(falls: {
  fall: DampedFall;
  falls: number;
  between: QuantityLike;
  set_per_fall?: RatioLike;
  stiffening_per_fall?: RatioLike;
}): { rope: Quantity; rest_strain: Quantity; arrest: DampedArrest }[];
