// One strip a field, from harvest to planting: the work, the days on which the ground can be worked, the ready days.

import { area, curveStep } from "d3-shape";
import { scaleLinear } from "d3-scale";
import { h, onWidth, s, section } from "./dom.mjs";
import { chanceMark } from "./chance.mjs";
import { dayReadout } from "./day_readout.mjs";
import { later } from "./later.mjs";
import { mark, markKey, swatch } from "./methods.mjs";
import { capital, count, dateWords, dayNumber, fieldLabel, isDay, monthName, rangeWords, readyWords } from "./words.mjs";

// `group` gives the heading under which a field stands.
const orders = {
  sure: { name: "least sure first", key: (model, f) => (model.due(f) ? model.outcomeOf(f)?.chance_ready ?? -1 : 9) },
  harvest: { name: "harvest date", key: (model, f) => dayNumber(f.harvest) },
  straw: { name: "most straw first", key: (model, f) => -f.straw.load_kg_per_ha },
  method: { name: "method", key: (model, f) => methodPlace(model, f), group: (model, f) => f.chosen.method },
  planting: { name: "planting date", key: (model, f) => (f.planting_date === null ? Infinity : dayNumber(f.planting_date)) },
  ready: { name: "latest ready first", key: (model, f) => -readyKey(model, f) },
  field: { name: "field number", key: () => 0 },
};

// Methods in the order of the book, fields without one last.
function methodPlace(model, field) {
  const place = model.plan.methods.findIndex((m) => m.id === field.chosen.method);
  return place < 0 ? Infinity : place;
}

function readyKey(model, field) {
  const ready = model.outcomeOf(field)?.ready.p50 ?? null;
  if (ready === null) return model.due(field) ? Infinity : -Infinity;
  return isDay(ready) ? dayNumber(ready) : 1e9;
}

function sorted(model, order) {
  const at = new Map(model.plan.fields.map((f, i) => [f, i]));
  const key = new Map(model.plan.fields.map((f) => [f, orders[order].key(model, f)]));
  return [...model.plan.fields].sort((a, b) => (key.get(a) === key.get(b) ? at.get(a) - at.get(b) : key.get(a) < key.get(b) ? -1 : 1));
}

// Marks that would touch go one lane lower.
function lanesOf(passes, x) {
  const ends = [];
  return passes.map((pass) => {
    const from = x(dayNumber(pass.start) + 0.5);
    const to = x(dayNumber(pass.end) + 0.5);
    let lane = ends.findIndex((end) => from - end >= 25);
    if (lane < 0) lane = ends.push(0) - 1;
    ends[lane] = to;
    return { pass, from, to, lane };
  });
}

function monthStarts(first, last) {
  const days = [];
  for (let day = first; day <= last; day += 1) if (new Date(day * 86400000).getUTCDate() === 1) days.push(day);
  return days;
}

function groundShade(model, field, x, height) {
  const y = scaleLinear([0, 1], [height, 4]);
  const shape = area().x((_, i) => x(model.fromDay + i + 0.5)).y0(height).y1((c) => y(c)).curve(curveStep);
  const shown = model.workableOf(field).slice(model.fromDay - model.firstDay, model.toDay - model.firstDay + 1);
  return s("path", { class: "ground", d: shape(shown) ?? "" });
}

// Held water: from the day the boards go in to the day they come out.
function heldWater(model, field, x, height) {
  const on = (kind) => model.passesOf(field).find((p) => model.plan.operations.find((o) => o.id === p.operation)?.water === kind);
  const boards = on("boards_in");
  if (!boards) return null;
  const out = on("boards_out");
  const from = x(dayNumber(boards.end) + 1);
  const to = x(out ? dayNumber(out.start) : model.toDay);
  return s("rect", { class: "held", x: from, y: height - 9, width: Math.max(to - from, 0), height: 9, fill: "url(#held-water)" });
}

function readyBar(model, field, x, y) {
  const ready = model.outcomeOf(field)?.ready;
  if (!ready || ready.p10 === null) return null;
  const at = (text) => (isDay(text) ? x(dayNumber(text) + 0.5) : x(model.toDay + 1));
  const open = !isDay(ready.p90);
  return s("g", { class: "ready" },
    isDay(ready.p10) && s("rect", { x: at(ready.p10) - 1.5, y: y - 5, width: Math.max(at(ready.p90) - at(ready.p10) + 3, 4), height: 10, class: open ? "open" : "" }),
    isDay(ready.p50) && s("path", { d: `M${at(ready.p50)} ${y - 8}V${y + 8}`, class: "middle" }),
    open && s("path", { d: `M${at(ready.p90) - 9} ${y - 7}L${at(ready.p90) - 1} ${y}L${at(ready.p90) - 9} ${y + 7}`, class: "beyond" }));
}

function line(x, day, height, kind) {
  return s("path", { class: kind, d: `M${x(day + 1)} 0V${height}` });
}

function stripWords(model, field) {
  const jobs = model.passesOf(field).map((p) => `${model.operationName(p.operation)} ${rangeWords(p.start, p.end)}`);
  const ready = model.outcomeOf(field)?.ready;
  const days = ready && ready.p10 !== null ? ` Ready: ${readyWords(ready.p10)} at the earliest tenth, ${readyWords(ready.p50)} in the middle, ${readyWords(ready.p90)} at the latest tenth.` : "";
  const due = field.planting_date ? ` Planting ${dateWords(field.planting_date)}.` : " No seedbed is due.";
  return `Field ${fieldLabel(field)}. ${jobs.length ? `${jobs.join("; ")}.` : "No work."}${days}${due}`;
}

function drawStrip(model, field, width) {
  const x = scaleLinear([model.fromDay, model.toDay + 1], [1, width - 1]);
  const marks = lanesOf(model.passesOf(field), x);
  const lanes = Math.max(2, ...marks.map((m) => m.lane + 1));
  const body = 26 * lanes + 14;
  const months = monthStarts(model.fromDay, model.toDay);
  const harvest = x(dayNumber(field.harvest) + 1);
  return s("svg", { width, height: body + 46, viewBox: `0 0 ${width} ${body + 46}`, role: "img", "aria-label": stripWords(model, field) },
    s("rect", { class: "sheet", x: 0.5, y: 0.5, width: width - 1, height: body }),
    groundShade(model, field, x, body),
    s("rect", { class: "crop", x: 1, y: 1, width: Math.max(harvest - 1, 0), height: body - 1 }),
    months.map((day) => s("path", { class: "month", d: `M${x(day)} 0V${body + 26}` })),
    heldWater(model, field, x, body),
    field.planting_date && line(x, dayNumber(field.planting_date), body + 26, "planting"),
    field.cut_off && line(x, dayNumber(field.cut_off), body + 26, "cut-off"),
    marks.map((m) => s("path", { class: "span", d: `M${m.from} ${16 + 26 * m.lane}H${m.to}` })),
    marks.map((m) => mark(model.marks.get(m.pass.operation), m.from, 16 + 26 * m.lane)),
    readyBar(model, field, x, body + 14),
    months.filter((day) => x(day) < width - 30).map((day) => s("text", { class: "axis", x: x(day) + 3, y: body + 40 }, monthName(day))));
}

function headOf(model, field) {
  const outcome = model.outcomeOf(field);
  const ready = outcome?.ready;
  const due = model.due(field);
  const spread = !due ? "no seedbed due" : !ready ? "not planned" : isDay(ready.p90)
    ? `ready ${readyWords(ready.p10)} to ${readyWords(ready.p90)}` : `ready ${readyWords(ready.p10)} or later; in the worst tenth of years ${readyWords(ready.p90)}`;
  return h("div", { class: "strip-head" },
    h("a", { href: `#${model.sheetId(field)}` }, fieldLabel(field)),
    h("span", { class: "method" }, swatch(model.plan, field.chosen.method), model.methodName(field.chosen.method)),
    due && outcome && chanceMark(outcome.chance_ready),
    h("span", { class: "spread" }, due ? `${spread}; planting ${dateWords(field.planting_date)}` : spread));
}

// The drawing comes when the strip is near the view, or in spare time.
function strip(model, field, readout) {
  const drawing = h("div", { class: "strip-drawing" });
  const box = h("div", { class: "strip-box" }, drawing, readout.handleFor(field));
  const item = h("li", { class: "strip", "data-field": field.id }, headOf(model, field), box);
  return { item, drawAt: (width) => later(item, () => drawing.replaceChildren(drawStrip(model, field, width)), true) };
}

// The strips in their order; by method under a heading each.
function board(model, order, strips) {
  const { group } = orders[order];
  const fields = sorted(model, order);
  if (!group) return h("ol", { class: "strips" }, fields.map((f) => strips.get(f).item));
  const groups = new Map();
  for (const f of fields) groups.set(group(model, f), [...(groups.get(group(model, f)) ?? []), f]);
  return [...groups].map(([id, members]) => h("div", { class: "strip-group" },
    h("h3", {}, swatch(model.plan, id), " ", capital(model.methodName(id)), h("small", {}, ` ${groupWords(model, members)}`)),
    h("ol", { class: "strips" }, members.map((f) => strips.get(f).item))));
}

function groupWords(model, fields) {
  return `${count(fields.length, "field", "fields")}, ${model.units.areaWords(fields.reduce((sum, f) => sum + f.area_ha, 0))}`;
}

function sample(draw) {
  return s("svg", { width: 44, height: 26, "aria-hidden": "true" }, draw);
}

function howToRead() {
  return h("ul", { class: "key wide" },
    h("li", {}, sample([s("path", { class: "ground", d: "M0 26V20L12 14L24 22L34 6L44 10V26Z" })]), "the taller, the more often the ground is fit to work on that day"),
    h("li", {}, sample([s("rect", { class: "crop", width: 44, height: 26 })]), "crop still standing"),
    h("li", {}, sample([s("rect", { class: "held", y: 8, width: 44, height: 10, fill: "url(#held-water)" })]), "boards in, water held"),
    h("li", {}, sample([s("g", { class: "ready" }, s("rect", { x: 4, y: 8, width: 36, height: 10 }), s("path", { class: "middle", d: "M18 5V21" }))]), "seedbed ready: 8 years in 10 fall inside the bar; the stroke is the middle year"),
    h("li", {}, sample([s("path", { class: "planting", d: "M22 0V26" })]), "planting date"),
    h("li", {}, sample([s("path", { class: "cut-off", d: "M22 0V26" })]), "last day: later stays unplanted"));
}

export function seasonSection(model) {
  const list = h("div", { class: "board" });
  let shown = model.plan.fields;
  const readout = dayReadout(model, () => shown);
  const strips = new Map(model.plan.fields.map((f) => [f, strip(model, f, readout)]));
  // All strips are as wide as their board: it is measured once for all.
  onWidth(list, (width) => strips.forEach((one) => one.drawAt(width)));
  const put = (order) => {
    shown = sorted(model, order);
    list.replaceChildren(...[board(model, order, strips)].flat());
    readout.stopAtFirst();
  };
  const choice = h("select", { id: "strip-order", onchange: (event) => put(event.target.value) },
    Object.entries(orders).map(([id, o]) => h("option", { value: id }, capital(o.name))));
  const part = section("season", "The season, field by field",
    `The marks show the work as it would fall in the weather of ${model.plan.schedule_year}. The shading and the ready bars come from many years.`,
    markKey(model.marks), howToRead(),
    h("p", { class: "control" }, h("label", { for: "strip-order" }, "Order: "), choice),
    h("p", { class: "note control", id: "board-keys" }, "Point at a day, or press Tab to a strip: left and right arrows go by days, Page Up and Page Down by weeks, up and down arrows from field to field."),
    list);
  return { part, mount: () => put("sure") };
}
