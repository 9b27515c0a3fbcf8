export * from "./line/solve.js";
