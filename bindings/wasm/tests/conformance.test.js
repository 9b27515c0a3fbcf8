// Runs tests/conformance/*.json; see the README there.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";

import * as tautwork from "tautwork";

const folder = new URL("../../../tests/conformance/", import.meta.url);

for (const name of readdirSync(folder).filter((name) => name.endsWith(".json")).sort()) {
  const { model, cases } = JSON.parse(readFileSync(new URL(name, folder), "utf8"));
  for (const item of cases) {
    test(`${model}::${item.call}: ${item.name}`, () => {
      const run = () => tautwork[model][item.call](item.input);
      if (item.error) {
        assert.throws(run, (error) => {
          assert.ok(error instanceof tautwork.TautworkError, String(error));
          compare(item.error, { kind: error.name, ...error }, item, "error");
          return true;
        });
      } else {
        compare(item.expect, run(), item, "answer");
      }
    });
  }
}

/** Whether `actual` holds all that `expected` names, numbers within the tolerance. */
function compare(expected, actual, item, path) {
  const wrong = `${path}: expected ${JSON.stringify(expected)}, got ${JSON.stringify(actual)}`;
  if (isQuantity(actual)) {
    const wanted = tautwork.convert(expected, actual.unit);
    assert.ok(close(wanted, actual.value, item, tolerance(item.abs, actual.unit)), wrong);
  } else if (Array.isArray(expected)) {
    const list = Array.isArray(actual) || actual instanceof Float64Array;
    assert.ok(list && actual.length === expected.length, wrong);
    expected.forEach((value, i) => compare(value, actual[i], item, `${path}[${i}]`));
  } else if (expected !== null && typeof expected === "object") {
    assert.ok(actual !== null && typeof actual === "object", wrong);
    for (const [key, value] of Object.entries(expected)) {
      assert.ok(key in actual, `${path}.${key} is absent`);
      compare(value, actual[key], item, `${path}.${key}`);
    }
  } else if (typeof expected === "number") {
    const abs = typeof item.abs === "number" ? item.abs : 0;
    assert.ok(typeof actual === "number" && close(expected, actual, item, abs), wrong);
  } else {
    assert.equal(actual, expected, wrong);
  }
}

function isQuantity(value) {
  const keys = value !== null && typeof value === "object" ? Object.keys(value).join() : "";
  return keys === "value,unit" && typeof value.value === "number";
}

/** An absolute tolerance with a unit holds for quantities of its kind. */
function tolerance(abs, unit) {
  try {
    return typeof abs === "string" ? tautwork.convert(abs, unit) : 0;
  } catch {
    return 0;
  }
}

function close(expected, actual, { rel = 1e-12 }, abs) {
  return Math.abs(actual - expected) <= Math.max(rel * Math.abs(expected), abs);
}
