export * from "./pulley/capstan.js";
export * from "./pulley/diagram.js";
export * from "./pulley/haul.js";
export * from "./pulley/lift.js";
export * from "./pulley/loss.js";
export * from "./pulley/lower.js";
export * from "./pulley/network.js";
export * from "./pulley/way.js";
