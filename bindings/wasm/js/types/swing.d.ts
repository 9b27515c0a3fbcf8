export * from "./swing/apart.js";
export * from "./swing/before.js";
export * from "./swing/edge.js";
export * from "./swing/full.js";
export * from "./swing/jump.js";
export * from "./swing/seek.js";
export * from "./swing/terrain.js";
