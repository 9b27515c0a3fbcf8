// Shows a plan: the verdict, the pictures, then every table.
import { make } from "./dom.js";

/** Tables that are open from the start. */
const open = new Set(["limits", "jump"]);

/** The plan, and its report as one HTML file to keep, to send and to print. */
export function planned(plan, report) {
  return [
    make("h3", {}, plan.rig),
    verdict(plan),
    make("p", { className: "caution" }, plan.cautions[0]),
    download(plan.rig, report),
    pictures(plan.pictures),
    list("What to keep in mind", plan.cautions),
    ...plan.tables.map(table),
    list("Notes", plan.notes),
  ];
}

/** The first line large, what falls short as a list. */
function verdict(plan) {
  const [head, ...rest] = plan.verdict.split("\n");
  const short = plan.tables.some(({ rows }) => rows.some(isShort));
  const items = rest.filter((line) => line.trim().startsWith("- "));
  const others = rest.filter((line) => line.trim() && !items.includes(line));
  return make(
    "div",
    { className: short ? "verdict short" : "verdict" },
    make("b", {}, head),
    make("ul", {}, ...items.map((line) => make("li", {}, line.trim().slice(2)))),
    ...others.map((line) => make("p", {}, line)),
  );
}

function download(rig, report) {
  const name = rig.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-");
  const save = () => {
    const href = URL.createObjectURL(new Blob([report], { type: "text/html" }));
    make("a", { href, download: `plan ${name}.html` }).click();
    setTimeout(() => URL.revokeObjectURL(href));
  };
  return make(
    "div",
    { className: "actions" },
    make("button", { id: "report", onclick: save }, "Download report"),
  );
}

/** As images, so that nothing in a picture can run. */
function pictures({ side_view, force, haul }) {
  const image = (svg, alt) =>
    make("img", { alt, src: `data:image/svg+xml,${encodeURIComponent(svg)}` });
  return make(
    "div",
    { className: "pictures" },
    image(side_view, "Side view of the rig and of the paths of the body"),
    image(force, "Force on the body over time"),
    haul === null ? null : image(haul, "The haul system with the force in every part"),
  );
}

function table({ key, title, remark, head, rows }) {
  const falls = rows.filter(isShort).length;
  const tag = falls > 0 ? make("span", { className: "tag" }, `${falls} short`) : null;
  // On a phone the verdict stands beside the name, not beyond the edge.
  const says = head.indexOf("verdict");
  const columns = [...head.keys()];
  if (says > 1) columns.splice(1, 0, columns.splice(says, 1)[0]);
  const numeric = head.map((_, c) => rows.every((row) => NUMBER.test(row[c])));
  const cells = (kind, row) =>
    columns.map((c) => {
      const className = [
        numeric[c] ? "number" : "",
        row[c].length > 22 ? "long" : "",
        row[c].startsWith("SHORT") ? "says" : "",
      ].join(" ");
      return make(kind, { className }, row[c]);
    });
  const body = rows.map((row) =>
    make("tr", { className: isShort(row) ? "short" : "" }, ...cells("td", row)),
  );
  const grid = make(
    "table",
    {},
    make("thead", {}, make("tr", {}, ...cells("th", head))),
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

/** Nothing, a dash, or a text that begins with a digit. */
const NUMBER = /^([-\u2212\u2013]?$|[-\u2212]?\d)/;

const SHORT = /^(SHORT|short by|hits |falls|no answer)|past its derated strength/;
const isShort = (row) => row.some((text) => SHORT.test(text));

function list(title, texts) {
  const items = texts.map((text) => make("li", {}, text));
  return make(
    "details",
    { open: true },
    make("summary", {}, title),
    make("ul", { className: "notes" }, ...items),
  );
}
