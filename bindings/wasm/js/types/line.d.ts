export * from "./line/chain.js";
export * from "./line/rings.js";
export * from "./line/rules.js";
export * from "./line/solve.js";
export * from "./line/vibration.js";
export * from "./line/walk.js";
export * from "./line/tables.js";
export * from "./line/tensioning.js";
