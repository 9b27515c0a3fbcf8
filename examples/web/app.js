// The page: the document and its plan, the calculators, and work without a connection.
import { planned } from "./answer.js";
import { calculators } from "./calculators.js";
import { make } from "./dom.js";

const find = (selector) => document.querySelector(selector);
const text = find("#document");
const numbers = find(".editor pre");
const answer = find("#answer");
const solve = find("#solve");

/** Where the draft is kept on this device. */
const DRAFT = "tautwork rig document";

function fail(error) {
  find("#failed").textContent = `The page could not start: ${error.message ?? error}`;
  find("#failed").hidden = false;
}

// The document.

function show(document_) {
  text.value = document_;
  changed();
}

function changed() {
  const count = text.value.split("\n").length;
  numbers.textContent = Array.from({ length: count }, (_, i) => i + 1).join("\n");
  numbers.scrollTop = text.scrollTop;
  try {
    localStorage.setItem(DRAFT, text.value);
  } catch {
    // Without storage the draft lives as long as the page.
  }
}

function draft() {
  try {
    return localStorage.getItem(DRAFT);
  } catch {
    return null;
  }
}

async function example() {
  show(await (await fetch("kestrel-gap.toml")).text());
}

/** Selects a line, counted from one, and scrolls to it. */
function goTo(line) {
  const lines = text.value.split("\n");
  const start = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  text.focus();
  text.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  const height = parseFloat(getComputedStyle(text).lineHeight);
  text.scrollTop = Math.max(0, (line - 4) * height);
  text.scrollLeft = 0;
  find(".editor").scrollIntoView({ block: "center" });
}

text.addEventListener("input", changed);
text.addEventListener("scroll", () => {
  numbers.scrollTop = text.scrollTop;
});
find("#example").addEventListener("click", () => {
  if (!text.value.trim() || confirm("Replace the document with the example?")) example();
});
find("#open").addEventListener("change", async ({ target }) => {
  if (target.files[0]) show(await target.files[0].text());
  target.value = "";
});
find("#save").addEventListener("click", () => {
  const type = text.value.trimStart().startsWith("{") ? "json" : "toml";
  const href = URL.createObjectURL(new Blob([text.value], { type: "text/plain" }));
  make("a", { href, download: `rig.${type}` }).click();
  setTimeout(() => URL.revokeObjectURL(href));
});

// The plan.

const worker = new Worker("planner.js", { type: "module" });
let clock;

solve.addEventListener("click", () => {
  const start = Date.now();
  const tick = () => {
    const seconds = Math.round((Date.now() - start) / 1000);
    solve.textContent = seconds > 0 ? `Solving, ${seconds} s` : "Solving";
  };
  solve.disabled = true;
  tick();
  clock = setInterval(tick, 1000);
  answer.replaceChildren();
  worker.postMessage(text.value);
});

worker.addEventListener("error", (event) => fail(event));
worker.addEventListener("message", ({ data: { plan, report, error } }) => {
  clearInterval(clock);
  solve.textContent = "Solve";
  solve.disabled = false;
  if (plan) {
    answer.replaceChildren(...planned(plan, report));
    answer.scrollIntoView();
  } else if (error?.mistakes) {
    answer.replaceChildren(...mistaken(error.mistakes));
  } else if (error) {
    answer.replaceChildren(make("p", { className: "wrong" }, error.message));
  }
});

function mistaken(mistakes) {
  const count = mistakes.length === 1 ? "One mistake" : `${mistakes.length} mistakes`;
  const items = mistakes.map(({ line, path, message }) => {
    const button = make(
      "button",
      { onclick: () => goTo(line) },
      make("b", {}, `line ${line} `),
      make("code", {}, path),
      message,
    );
    return make("li", {}, button);
  });
  return [
    make("h3", { className: "wrong" }, `${count} in the document`),
    make("ol", { className: "mistakes" }, ...items),
  ];
}

// Everything that needs the package.

try {
  const kept = draft();
  if (kept?.trim()) show(kept);
  else await example();
  find(".cards").append(...calculators(await import("./tautwork/js/web.js")));
  document.body.dataset.ready = "";
} catch (error) {
  fail(error);
}
navigator.serviceWorker?.register("offline.js").catch(() => {
  // Some browsers refuse workers in private windows: the page then needs its connection.
});
