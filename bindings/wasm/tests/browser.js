// The web page in a real browser: BROWSER is the program, PAGE the folder of the built page.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
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
  const form = page.locator("form[data-call='fall.impact_force']");
  await form.locator("[name=fall_factor]").fill("0");
  assert.match(await form.locator("output").textContent(), /1\.57 kN/);
  await form.locator("[name=mass]").fill("80 kN");
  assert.match(await form.locator("output").textContent(), /a force, not a mass/);
});

test("every calculator answers as it stands", async () => {
  await page.reload();
  await page.waitForSelector("body[data-ready]");
  for (const form of await page.locator("form").all()) {
    const output = form.locator("output");
    assert.equal(await output.locator(".wrong").count(), 0, await output.textContent());
    assert.match(await output.textContent(), /\d/);
  }
});

test("the demo rig is planned, with its shortfall, pictures and tables", async () => {
  await page.click("#solve");
  await page.waitForSelector(".verdict", { timeout: 120_000 });
  assert.match(await page.textContent(".verdict"), /falls? short of the rigger's limits/);
  const sizes = await page.$$eval(".pictures img", (images) => images.map((i) => i.naturalWidth));
  assert.ok(sizes.length === 3 && sizes.every((width) => width > 0));
  assert.ok((await page.locator("details table").count()) >= 10);
  assert.ok((await page.locator("tr.short").count()) >= 1);
});

test("the report is one file to keep", async () => {
  const coming = page.waitForEvent("download");
  await page.click("#report");
  const download = await coming;
  assert.match(download.suggestedFilename(), /kestrel-gap\.html$/);
  const text = await readFile(await download.path(), "utf8");
  assert.ok(text.startsWith("<!doctype html>") && text.includes("calculations, not permission"));
  assert.ok(!text.includes("<script"));
});

test("a mistake is listed with its line and leads to it", async () => {
  const document = await page.inputValue("#document");
  const line = document.split("\n").findIndex((text) => text.includes("132.4 m")) + 1;
  await page.fill("#document", document.replace("132.4 m", "132.4"));
  await page.click("#solve");
  const mistake = page.locator(".mistakes button");
  await mistake.waitFor();
  assert.match(await mistake.textContent(), new RegExp(`line ${line} .*has no unit`));
  await mistake.click();
  const selected = await page.$eval("#document", (area) =>
    area.value.slice(area.selectionStart, area.selectionEnd),
  );
  assert.match(selected, /132\.4/);
});

test("the page fits a phone", async () => {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
  const low = await page.$$eval("button, .button, input:not([type=file]), select, summary", (all) =>
    all.filter((e) => e.offsetHeight > 0 && e.offsetHeight < 44).map((e) => e.outerHTML),
  );
  assert.deepEqual(low, [], "targets of at least 44 px");
});

test("nothing went wrong unseen", () => {
  assert.deepEqual(errors, []);
});

test("the page opens without a connection", async () => {
  await page.evaluate(() => navigator.serviceWorker.ready);
  const gone = new Promise((done) => server.close(done));
  server.closeAllConnections();
  await gone;
  await page.reload();
  await page.waitForSelector("body[data-ready]");
});
