// The package in a browser: importing it loads the module.
import init from "../pkg/tautwork.js";

await init();

export * from "./models.js";
