// The calls of each model. Types and docs are in types/<model>.d.ts.
import * as native from "../pkg/tautwork.js";
import { raised } from "./errors.js";

export * from "./errors.js";

/** The functions of a model: each takes one object of named arguments. */
function model(name, functions) {
  const run = (call) => (input) => raised(() => native.call(`${name}.${call}`, input));
  return Object.freeze(Object.fromEntries(functions.map((call) => [call, run(call)])));
}

export const anchor = model("anchor", [
  "adjusted_cone",
  "adjusted_loss",
  "adjusted_rest",
  "block_hold",
  "bolt_group",
  "bolt_use",
  "break_in_time",
  "buckling",
  "choke_angle_factor",
  "equilibrium",
  "frame_forces",
  "frame_lift",
  "frame_window",
  "hitch_strength",
  "interaction_rules",
  "lose_guy",
  "lose_leg",
  "pull_cone",
  "sling_factor",
  "sling_mode_factor",
  "system_losses",
  "system_rest",
  "tree_stress",
  "v_angle_factor",
  "wire_rope_sling_limit",
]);

export const fall = model("fall", [
  "arrest",
  "arrest_damped",
  "arrest_over_edge",
  "arrest_over_edges",
  "arrest_repeated",
  "arrest_shared",
  "arrest_with_slip",
  "dropped",
  "en892_checks",
  "fall_factor",
  "impact_force",
  "implied_axial_rigidity",
  "leash_fall",
  "series_stiffness",
]);

export const line = model("line", [
  "angle_table",
  "bounce",
  "building_states",
  "bundle_engagement",
  "bundle_rest_length_for_tension",
  "cable_modes",
  "catenary",
  "catenary_from_sag",
  "chain_at",
  "chain_at_x",
  "chain_derivatives",
  "chain_modes",
  "change_line",
  "elastic_derivatives",
  "hardware_gives",
  "irvine_caughey",
  "lengths_to_bring",
  "load_cell_reading",
  "mid_load_table",
  "pull_in",
  "recoil",
  "rest_length_for_mid_load_sag",
  "rest_length_for_sag",
  "rest_length_for_tension",
  "ring_losses",
  "roll",
  "roll_rests",
  "rules_chart",
  "rules_of_thumb",
  "sag_table",
  "soft_release",
  "solve_bundle",
  "solve_chain",
  "solve_elastic",
  "solve_elastic_batch",
  "solve_net",
  "solve_rings",
  "stand",
  "string_modes",
  "sweep_bundle",
  "sweep_bundle_batch",
  "sweep_rings",
  "table_text",
  "tension_by_strokes",
  "tension_from_bounce",
  "tension_from_pluck",
  "walk_envelope",
  "wind_load",
]);

export const material = model("material", [
  "derated",
  "gear_limits",
  "is_past_table",
  "knot_factors",
  "rated_strength",
  "rating_check",
  "rest_length_factor",
  "rope_recovery",
  "rub_wear",
  "strain",
  "strength_factors",
  "strength_left",
  "tangent_rigidity",
  "tension",
  "viscoelastic_from_en892",
  "weight",
  "wire_rope_bend",
]);

export const pulley = model("pulley", [
  "capstan_hold",
  "capstan_ratio",
  "climb_bounce",
  "compare_hauls",
  "diagram",
  "haul_fails",
  "haul_jerk",
  "haul_work",
  "implied_mu",
  "lifted_pendulum",
  "lowering",
  "ordinary",
  "ordinary_systems",
  "over_edges",
  "pull_over_lip",
  "sheave_loss",
  "solve",
  "tackle",
  "way_back",
  "wrap_to_hold",
]);

export const rig = model("rig", [
  "kit_check",
  "loss_table_text",
  "plan_text",
  "report_text",
  "schema",
]);

export const swing = model("swing", [
  "apart_in_flight",
  "clearance_history",
  "envelope",
  "exits_that_clear",
  "fly",
  "fly_full",
  "highest_exit_for_peak",
  "least_apart",
  "outlook",
  "rope_clearance_history",
  "rope_length_for_lowest",
  "rope_on_edge",
  "mesh_edges",
  "rope_on_mesh",
  "step_off",
  "terrain_facts",
  "waiting",
  "wind_sweep",
]);

/** The plan of a rig document, TOML or JSON. */
export const plan = (text) => rig.plan_text({ text });
/** The loss table of a rig document; `progress(done, total, component)` may return false to stop. */
export const loss_table = (text, { pairs = false, progress } = {}) =>
  raised(() => native.loss_table(text, pairs, progress));

export const convert = (quantity, unit) => raised(() => native.convert(quantity, unit));
export const format = (quantity, unit, decimals) =>
  raised(() => native.format(quantity, unit, decimals));
export const calls = () => native.calls();
