// The season so far, as the plan knew it: what was done on each field, and how far off the model was.

import { h, s, section } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { capital, count, dateWords, rangeWords } from "./words.mjs";

const shownAtFirst = 8;

const timesWords = (n) => ["never", "once", "twice"][n] ?? `${n} times`;

function stageWords(model, stage) {
  const name = model.operationName(stage.operation);
  if (stage.passes === 0) return `${name}, no more of it`;
  return `${name}${stage.passes > 1 ? ` ${timesWords(stage.passes)}` : ""}, ${rangeWords(stage.first, stage.last)}${stage.no_more ? ", no more of it" : ""}`;
}

// What goes on: a pass, baling whose straw is raked anew, and hauling behind the baler.
const begun = (row) => [row.running, row.baling_waits, row.behind_baler].filter(Boolean);

// Days of the season's work on one line: bars from a stage's first day to its last; open bar: begun.
function stagePicture(model, row, from, to) {
  const width = 200, x = (iso) => 4 + ((width - 8) * (Date.parse(iso) - from)) / Math.max(to - from, 1);
  const bar = (a, b, name) => s("rect", { class: name, x: x(a) - 2, y: 4, width: Math.max(x(b) - x(a), 0) + 4, height: 8 });
  return s("svg", { width, height: 16, "aria-hidden": "true", class: "so-far-line" }, s("path", { class: "base", d: `M4 8H${width - 4}` }),
    row.done.filter((d) => d.passes > 0).map((d) => bar(d.first, d.last, "worked")), begun(row).map((r) => bar(r.since, model.plan.farm.as_of, "begun")));
}

function groundWords(model, row) {
  const { units } = model;
  return [row.bales_lie_share > 0 && "bales lie on it", row.boards_in && "boards are in", row.standing_mm >= 1 && `water stands ${units.lengthWords(row.standing_mm / 10)} deep`,
    row.canal_m3 > 0 && `${units.waterNumber(row.canal_m3)} ${units.water} of canal water`, row.cut && `straw on top ${units.massWords(row.straw_on_top_kg_per_ha)}`].filter(Boolean);
}

function fieldRow(model, row, wet, from, to) {
  const field = model.fieldById(row.field);
  const done = row.done.map((d) => stageWords(model, d));
  for (const r of begun(row)) done.push(`${model.operationName(r.operation)} begun on ${dateWords(r.since)}, ${model.units.areaWords(r.area_ha)} of ${model.units.areaWords(field.area_ha)}`);
  if (wet) done.push(`called too wet until ${dateWords(wet.until)}`);
  return h("tr", {}, h("th", { scope: "row" }, fieldLink(model, field)), h("td", {}, done.length > 0 ? capital(done.join("; ")) : row.cut ? "Nothing yet" : "Not cut yet"),
    h("td", {}, stagePicture(model, row, from, to)), h("td", {}, capital(groundWords(model, row).join(", "))));
}

const kinds = {
  cover_share: { name: "cover", of: (x) => `${Math.round(100 * x)} %` }, straw_on_top_kg_per_ha: { name: "straw on top", of: (x, u) => u.massWords(x) },
  workable: { name: "ground", of: (x) => (x > 0 ? "workable" : "too wet") }, standing_mm: { name: "water standing", of: (x, u) => u.lengthWords(x / 10) },
  rain_mm: { name: "rain", of: (x, u) => (u.length === "in" ? `${u.number(x / 25.4, 2)} in` : `${u.number(x, 1)} mm`) },
};

const off = (d) => Math.abs(d.model / d.seen - 1);

function offWords(differences) {
  const of = (names) => differences.filter((d) => names.includes(d.what));
  const ground = of(["workable"]), straw = of(["cover_share", "straw_on_top_kg_per_ha"]).filter((d) => d.seen > 0), wrong = ground.filter((d) => d.model !== d.seen);
  return [
    ground.length > 0 && `The ground was looked at ${timesWords(ground.length)}; the model had it wrong ${timesWords(wrong.length)}.`,
    straw.length > 0 && `Straw was counted or weighed ${timesWords(straw.length)}; the model was off by ${Math.round((100 * straw.reduce((all, d) => all + off(d), 0)) / straw.length)} % in the mean.`,
  ].filter(Boolean).join(" ");
}

// Where the model stood (ring), what was seen (dot), what it goes on with (tick), on a scale of its own.
function differencePicture(d) {
  const most = Math.max(d.model, d.seen, d.used, 1e-9), x = (v) => 6 + (108 * v) / most;
  return s("svg", { width: 120, height: 16, "aria-hidden": "true", class: "two-chances" }, s("path", { class: "base", d: "M6 8H114" }), s("path", { class: "base thick", d: `M${x(d.model)} 8H${x(d.seen)}` }),
    s("circle", { class: "ring", cx: x(d.model), cy: 8, r: 5 }), s("circle", { class: "dot", cx: x(d.seen), cy: 8, r: 3 }), s("path", { class: "goes-on", d: `M${x(d.used)} 1V15` }));
}

function differenceTable(model, differences) {
  const rows = differences.map((d) => {
    const kind = kinds[d.what], words = (x) => kind.of(x, model.units);
    return h("tr", {}, h("th", { scope: "row" }, `${dateWords(d.date)}, ${d.field === null ? "the whole farm" : `field ${d.field}`}: ${kind.name}`),
      h("td", {}, words(d.model)), h("td", {}, words(d.seen)), h("td", {}, words(d.used)), h("td", {}, d.what === "workable" ? (d.model === d.seen ? "as thought" : "otherwise") : differencePicture(d)));
  });
  return h("details", { class: "long", open: rows.length <= shownAtFirst }, h("summary", {}, `What was seen beside the model, ${timesWords(rows.length)}`),
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "What was seen beside the model" }, h("table", { class: "so-far-seen" },
      h("thead", {}, h("tr", {}, ["Seen", "The model had", "Seen", "It goes on with"].map((t, i) => h("th", { scope: "col" }, i === 0 ? "Day, field" : t)), h("td", {}))), h("tbody", {}, rows))),
    h("p", { class: "note" }, "Ring: the model. Dot: what was seen. Upright line: what the plan goes on with."));
}

// Null where nothing has been done or seen yet.
export function soFarSection(model) {
  const { so_far: so, farm } = model.plan;
  if (!so) return null;
  const touched = so.fields.filter((r) => r.done.length > 0 || r.running || r.boards_in || r.canal_m3 > 0 || so.too_wet.some((w) => w.field === r.field));
  const days = touched.flatMap((r) => [...r.done.map((d) => d.first), ...(r.running ? [r.running.since] : [])]);
  const from = Date.parse(days.reduce((a, b) => (b < a ? b : a), farm.as_of)), to = Date.parse(farm.as_of);
  const untouched = so.fields.length - touched.length;
  const table = h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "What was done, field by field" }, h("table", { class: "so-far" },
    h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "Field"), h("th", { scope: "col" }, "Done"), h("td", {}, from < to && `${dateWords(new Date(from).toISOString())} to ${dateWords(farm.as_of)}`), h("th", { scope: "col" }, "On it now"))),
    h("tbody", {}, touched.map((r) => fieldRow(model, r, so.too_wet.find((w) => w.field === r.field), from, to)))));
  return section("so-far", "So far", `By ${count(so.entries, "entry", "entries")} of the journal, on the morning of ${dateWords(farm.as_of, true)}. ${offWords(so.differences)}`,
    touched.length > 0 && table, untouched > 0 && h("p", { class: "note" }, touched.length === 0 ? "No work has been done yet." : `On the other ${count(untouched, "field", "fields")} no work has been done yet.`),
    so.doubts.length > 0 && h("div", { class: "doubts" }, h("h3", {}, "To be looked at"), h("ul", {}, so.doubts.map((d) => h("li", {}, capital(d.words), ".")))),
    so.differences.length > 0 && differenceTable(model, so.differences));
}
