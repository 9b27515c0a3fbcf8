export * from "./fall/damped.js";
export * from "./fall/dropped.js";
export * from "./fall/leash.js";
export * from "./fall/redirect.js";
export * from "./fall/slip.js";
export * from "./fall/stop.js";
