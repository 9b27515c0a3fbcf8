export * from "./anchor/adjust.js";
export * from "./anchor/fixing.js";
export * from "./anchor/frame.js";
export * from "./anchor/legs.js";
export * from "./anchor/system.js";
