// The package in Node: the module is read from disk before anything runs.
import { readFileSync } from "node:fs";

import { initSync } from "../pkg/tautwork.js";

initSync({ module: readFileSync(new URL("../pkg/tautwork_bg.wasm", import.meta.url)) });

export * from "./models.js";
