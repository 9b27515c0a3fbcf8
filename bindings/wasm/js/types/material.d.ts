export * from "./material/cordage.js";
export * from "./material/gear.js";
export * from "./material/strength.js";
export * from "./material/wear.js";
