// Shows a plan: the verdict, the pictures, then every table.
import { make } from "./dom.js";

/** Tables that are open from the start. */
const open = new Set(["limits", "jump"]);
/** Tables in the order in which a rigger asks; others follow. */
const order = ["limits", "strength", "clearance", "losses", "jump", "standing", "rope"];

export function planned(plan) {
  const [head, ...rest] = plan.verdict.split("\n");
  const short = !head.startsWith("No ");
  const verdict = make(
    "div",
    { className: short ? "verdict short" : "verdict" },
    make("b", {}, head),
    rest.join("\n"),
  );
  const place = ({ key }) => (order.includes(key) ? order.indexOf(key) : order.length);
  const tables = [...plan.tables].sort((a, b) => place(a) - place(b));
  return [
    make("h3", {}, plan.rig),
    verdict,
    list("What to keep in mind", plan.cautions, true),
    pictures(plan.pictures),
    ...tables.map(table),
    list("Notes", plan.notes, true),
  ];
}

/** As images, so that nothing in a picture can run. */
function pictures({ side_view, force }) {
  const image = (svg, alt) =>
    make("img", { alt, src: `data:image/svg+xml,${encodeURIComponent(svg)}` });
  return make(
    "div",
    { className: "pictures" },
    image(side_view, "Side view of the rig and of the paths of the body"),
    image(force, "Force on the body over time"),
  );
}

function table({ key, title, remark, head, rows }) {
  const falls = rows.filter(isShort).length;
  const tag = falls > 0 ? make("span", { className: "tag" }, `${falls} short`) : null;
  const numeric = head.map((_, c) => rows.every((row) => /^([-\u2212\u2013]?$|[-\u2212]?\d)/.test(row[c])));
  const cell = (kind) => (text, c) =>
    make(kind, { className: numeric[c] ? "number" : text.startsWith("SHORT") ? "says" : "" }, text);
  const body = rows.map((row) =>
    make("tr", { className: isShort(row) ? "short" : "" }, ...row.map(cell("td"))),
  );
  const grid = make(
    "table",
    {},
    make("thead", {}, make("tr", {}, ...head.map(cell("th")))),
    make("tbody", {}, ...body),
  );
  const box = make(
    "details",
    { open: open.has(key) },
    make("summary", {}, title, tag),
    remark ? make("p", {}, remark) : null,
    make("div", { className: "scroll" }, grid),
  );
  box.dataset.table = key;
  return box;
}

const isShort = (row) => row.some((text) => text.startsWith("SHORT"));

function list(title, texts, isOpen) {
  const items = texts.map((text) => make("li", {}, text));
  return make(
    "details",
    { open: isOpen },
    make("summary", {}, title),
    make("ul", { className: "notes" }, ...items),
  );
}
