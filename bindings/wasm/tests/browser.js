// The web page in a real browser: BROWSER is the program, PAGE the folder of the built page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";

import { chromium } from "playwright-core";

import { serve } from "./serve.js";

const quiet =
  "--no-sandbox --disable-gpu --disable-dev-shm-usage --disable-quic --no-first-run " +
  "--disable-background-networking --disable-component-update --disable-sync";
let browser, page, server;
const errors = [];

before(async () => {
  server = await serve(process.env.PAGE);
  browser = await chromium.launch({ executablePath: process.env.BROWSER, args: quiet.split(" ") });
  page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  page.on("pageerror", (error) => errors.push(error.stack ?? String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  await page.waitForSelector("body[data-ready]", { timeout: 30_000 }).catch((error) => {
    throw new Error(`the page is not ready: ${errors.join("; ") || error.message}`);
  });
});

after(async () => {
  await browser?.close();
  server?.close();
});

test("the page loads without an error", () => {
  assert.deepEqual(errors, []);
});

test("a fall is computed as it is typed", async () => {
  await page.fill("[name=mass]", "80 kg");
  await page.fill("[name=fall_factor]", "0");
  await page.fill("[name=axial_rigidity]", "20 kN");
  assert.equal(await page.textContent("#impact_force"), "1.57 kN");
});

test("a wrong unit is named at its field", async () => {
  await page.fill("[name=mass]", "80 kN");
  assert.match(await page.textContent("#fall-error"), /a force, not a mass/);
});
