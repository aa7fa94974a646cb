// One sheet a field: what is there, what to do and why, the jobs, and the methods side by side.

import { h, section } from "./dom.mjs";
import { chanceMark } from "./chance.mjs";
import { comparison } from "./compare.mjs";
import { nitrogenWords } from "./environment.mjs";
import { makeNow, whenAsked } from "./later.mjs";
import { swatch } from "./methods.mjs";
import { readyPicture } from "./ready_days.mjs";
import { nextBest, waiting } from "./reasons.mjs";
import { winterPicture } from "./winter.mjs";
import { capital, chanceWords, dateWords, fieldLabel, listWords, rangeWords, readyWords, weekWords } from "./words.mjs";

const lays = { windrow: "in windrows", spread: "spread behind the combine", chopped: "chopped by the combine" };

function shapeWords(field) {
  const more = Math.round(100 * (field.hours_over_typical - 1));
  if (field.invented_shape) return "not drawn: typical hours are counted";
  if (more === 0) return "machines take the typical hours here";
  return `machines take ${Math.abs(more)} % ${more > 0 ? "more" : "fewer"} hours here than is typical`;
}

function facts(model, field) {
  const { units } = model;
  const rows = [
    ["Area", units.areaWords(field.area_ha)],
    ["Shape", shapeWords(field)],
    ["Soil", field.soil],
    ["Straw", `${units.massWords(field.straw.load_kg_per_ha)}, oven-dry${field.straw.load_given ? ", as entered" : ", from the yield"}: ${units.massNumber(field.straw.standing_kg_per_ha)} standing, ${units.massNumber(field.straw.loose_kg_per_ha)} loose`],
    ...(field.straw.variation ? [["Within", field.straw.variation.words]] : []),
    [field.cut ? "Cut" : "To be cut", dateWords(field.harvest, true)],
    ["Next", field.next_use === "fallow" ? "rests this summer" : `${field.next_use === "rice" ? "rice" : "another crop"}, planting ${dateWords(field.planting_date, true)}; after ${dateWords(field.cut_off)} it stays unplanted`],
    ...(field.history ? [["Before", field.history.map((past) => past.words).join(". ")]] : []),
  ];
  return h("dl", { class: "facts" }, rows.map(([name, value]) => h("div", {}, h("dt", {}, name), h("dd", {}, value))));
}

function combineWords(model, field) {
  const c = field.chosen;
  const height = model.units.lengthWords(c.cut_height_cm);
  if (c.fixed) return `The straw lies ${lays[c.lay]}; stubble ${height}.`;
  return `Tell the combine: leave the straw ${lays[c.lay]}, cut at ${height}${c.chopper ? ", chopper on" : ""}.`;
}

// With a next best the panel below tells the rest.
function whyWords(model, field) {
  const { next_best: next } = field.chosen;
  const because = field.chosen.because.map(model.units.told);
  if (because.length === 0) return null;
  if (!next) return h("p", {}, "Why: ", because.join("; "), ".");
  return h("details", { class: "all-reasons" }, h("summary", {}, "All reasons, in words"), h("ul", {}, because.map((text) => h("li", {}, capital(text), "."))));
}

function decision(model, field) {
  const c = field.chosen;
  const outcome = model.outcomeOf(field);
  if (!outcome) return h("p", { class: "warning" }, "No method is open on this field. The reasons stand below.");
  return h("div", { class: "decision" },
    h("p", { class: "big" }, swatch(model.plan, c.method), " ", capital(model.methodName(c.method)), c.locked && h("small", {}, "fixed by you")),
    h("p", {}, model.plan.methods.find((m) => m.id === c.method).summary),
    model.due(field) && h("p", {}, "Ready by planting: ", chanceMark(outcome.chance_ready),
      field.unplanted_chance > 0 && ` Stays unplanted in ${chanceWords(field.unplanted_chance)}.`),
    whyWords(model, field),
    h("p", {}, combineWords(model, field)),
    model.due(field) && h("p", {}, nitrogenWords(model, outcome)),
    [c.fallback, ...c.more_fallbacks].filter(Boolean).map((f) => fallBackWords(model, f)));
}

function fallBackWords(model, f) {
  const start = f.start_by === null ? "At once (it is late already), " : `By the ${weekWords(f.start_by)}, `;
  const often = f.chance_taken > 0 ? `; it comes to that in ${chanceWords(f.chance_taken)}` : "";
  return h("p", {}, h("strong", {}, start), `if ${f.trigger}: `, f.method === null ? f.instead : `turn to “${model.methodName(f.method)}”`,
    `${often}. `, h("a", { href: "#others" }, "All that hangs on others"));
}

function jobs(model, field) {
  const passes = model.passesOf(field);
  if (passes.length === 0) return null;
  return h("div", {}, h("h4", {}, `Jobs, in the weather of ${model.plan.schedule_year}`),
    h("ul", { class: "jobs" }, passes.map((p) => h("li", {}, h("span", { class: "when" }, rangeWords(p.start, p.end)),
      h("span", {}, capital(model.operationName(p.operation)), p.fell_back && " (fall-back)",
        h("small", {}, [`${model.units.hours(p.hours)} h`, listWords([...p.people, ...p.machines].map(model.nameOf))].filter(Boolean).join(" · ")))))),
    waterWords(model, field));
}

function waterWords(model, field) {
  const rows = model.plan.water.filter((w) => w.field === field.id);
  if (rows.length === 0) return null;
  const total = rows.reduce((sum, w) => sum + w.m3, 0);
  return h("p", {}, `Canal water: ${model.units.waterNumber(total)} ${model.units.water} between ${dateWords(rows[0].date)} and ${dateWords(rows[rows.length - 1].date)}.`);
}

function cautionsOf(model, field) {
  const own = model.plan.cautions.filter((c) => c.fields.includes(field.id));
  if (own.length === 0) return null;
  return h("div", {}, h("h4", {}, "Take care"), h("ul", {}, own.map((c) => h("li", {}, c.text, " ", h("small", {}, `Source: ${c.source}.`)))));
}

function bodyOf(model, field) {
  return [
    h("div", { class: "sheet-top" }, h("div", {}, decision(model, field), facts(model, field), nextBest(model, field) ?? waiting(model, field)), h("div", {}, jobs(model, field), cautionsOf(model, field))),
    h("div", { class: "sheet-pictures" }, readyPicture(model, field), winterPicture(model, field)),
    comparison(model, field)];
}

// The inside comes when the sheet is opened; on a farm of usual size in spare time too, so that a search of the page finds it.
function sheet(model, field) {
  const outcome = model.outcomeOf(field);
  const body = h("div", { class: "sheet-body" });
  const whole = h("details", { class: "field-sheet", id: model.sheetId(field), "data-field": field.id, ontoggle: () => whole.open && makeNow(whole) },
    h("summary", {}, h("span", { class: "sheet-name" }, fieldLabel(field)),
      h("span", { class: "method" }, swatch(model.plan, field.chosen.method), model.methodName(field.chosen.method), field.chosen.toss_up_with !== null && h("small", { class: "toss-up" }, "toss-up")),
      outcome && h("span", { class: "dim" }, `${model.units.moneyPerArea(outcome.cost_per_ha)}${model.due(field) ? `, ready ${readyWords(outcome.ready.p50)}` : ""}`)),
    body);
  whenAsked(whole, () => body.prepend(...bodyOf(model, field).filter(Boolean)), !model.large);  // before what a server adds
  return whole;
}

export function sheetSection(model) {
  return section("sheets", "Field sheets", "What to do on each field, why, and what every other method would do there.",
    model.plan.fields.map((f) => sheet(model, f)));
}
