// The contract that every call keeps.
import assert from "node:assert/strict";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";

import * as tautwork from "tautwork";

const { fall, convert, format } = tautwork;
const drop = { fall_factor: 1.77, axial_rigidity: "24.07 kN" };
const read = (path) => readFileSync(new URL(path, import.meta.url), "utf8");

for (const [name, names] of Object.entries(tautwork.calls())) {
  const [model, call] = name.split(".");
  test(`${name} has a function and types`, () => {
    assert.equal(typeof tautwork[model]?.[call], "function");
    assert.match(read("../js/index.d.ts"), new RegExp(`export \\* as ${model} from`));
    const types = typesOf(model);
    const found = types.match(new RegExp(`\\*/\\s*export function ${call}\\(([\\s\\S]*?)\\):`));
    assert.ok(found, `types/${model}.d.ts lacks a documented ${call}`);
    if (names) {
      assert.deepEqual(outerNames(found[1]), names);
    }
  });
}

/** The types of a model: its file, and those of its folder if it has one. */
function typesOf(model) {
  const folder = new URL(`../js/types/${model}/`, import.meta.url);
  const files = existsSync(folder) ? readdirSync(folder).map((file) => `${model}/${file}`) : [];
  return [`${model}.d.ts`, ...files].map((file) => read(`../js/types/${file}`)).join("\n");
}

/** Names of the fields of the outermost object type in `input: { ... }`. */
function outerNames(text) {
  const inner = text.slice(text.indexOf("{") + 1, text.lastIndexOf("}"));
  let flat = inner;
  for (let last = ""; last !== flat; ) {
    last = flat;
    flat = flat.replace(/\{[^{}]*\}/g, "object");
  }
  return [...flat.matchAll(/(\w+)\??:/g)].map((match) => match[1]);
}

test("there is no function that is not a call", () => {
  const known = tautwork.calls();
  for (const [model, functions] of Object.entries(tautwork)) {
    if (typeof functions !== "object") continue;
    for (const call of Object.keys(functions)) assert.ok(`${model}.${call}` in known, call);
  }
});

test("a quantity may be text or a value and a unit", () => {
  const force = fall.impact_force({ mass: "80 kg", ...drop });
  assert.deepEqual(fall.impact_force({ mass: { value: 80, unit: "kg" }, ...drop }), force);
  assert.equal(force.unit, "N");
  assert.equal(format(force, "kN", 2), "9.00 kN");
  assert.equal(fall.fall_factor({ height: "4 m", rope: "2 m" }).unit, "1");
});

test("convert and format", () => {
  assert.equal(convert("22 kN", "N"), 22000);
  assert.equal(convert({ value: 1, unit: "ft" }, "m"), 0.3048);
  assert.equal(convert(0.5, "%"), 50);
  assert.equal(format("22kN"), "22 kN");
  assert.throws(() => convert("22 kN", "m"), tautwork.UnitError);
  assert.throws(() => convert("22", "kN"), tautwork.UnitError);
  for (const wrong of [undefined, null, {}, [], true, NaN, 1n, Symbol("x"), () => 1]) {
    assert.throws(() => convert(wrong, "kN"), tautwork.TautworkError);
  }
});

test("an error holds the facts", () => {
  assert.throws(() => fall.impact_force({ mass: "-80 kg", ...drop }), {
    name: "InvalidInput",
    message: "mass is -80 kg; it must be above zero",
    parameter: "mass",
    value: "-80 kg",
    allowed: "above zero",
  });
});

test("a bad argument is an error of the library", () => {
  const endless = {};
  endless.mass = endless;
  const wrong = [undefined, null, 3, "x", [], {}, endless, { ...drop, mass: "80 kg", more: 1 }];
  for (const input of wrong) {
    assert.throws(() => fall.impact_force(input), tautwork.TautworkError);
  }
  for (const factor of [NaN, Infinity, -0.1, null, undefined, {}, 1n]) {
    const input = { ...drop, mass: "80 kg", fall_factor: factor };
    assert.throws(() => fall.impact_force(input), tautwork.TautworkError);
  }
});

test("the loss table tells how far it is and may be stopped", () => {
  const { cases } = JSON.parse(read("../../../tests/conformance/rig.losses.json"));
  const { text } = cases[0].input;
  const heard = [];
  const table = tautwork.loss_table(text, { progress: (done, total) => heard.push([done, total]) });
  const total = 3 * table.single.length;
  assert.deepEqual(heard, Array.from({ length: total }, (_, i) => [i + 1, total]));
  assert.equal(table.pairs.length, 0);
  const stop = { progress: (done) => done < 2 };
  assert.throws(() => tautwork.loss_table(text, stop), { name: "ModelError", done: 2 });
  const broken = () => {
    throw new RangeError("enough");
  };
  assert.throws(() => tautwork.loss_table(text, { progress: broken }), RangeError);
});
