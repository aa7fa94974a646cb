// The methods of one field side by side.

import { h, s } from "./dom.mjs";
import { chanceMark } from "./chance.mjs";
import { swatch } from "./methods.mjs";
import { partNames } from "./parts.mjs";
import { airRows, moneyRange, nextCropRows, readingNotes } from "./environment.mjs";
import { capital, chanceWords, dateWords, readyWords } from "./words.mjs";

function costBar(cost, low, high) {
  const at = (v) => (100 * (v - low)) / (high - low || 1);
  const from = Math.min(at(0), at(cost));
  return s("svg", { class: "cost-bar", width: "100%", height: 10, "aria-hidden": "true" },
    s("rect", { x: `${from}%`, y: 1, width: `${Math.max(Math.abs(at(cost) - at(0)), 0.5)}%`, height: 8, class: cost < 0 ? "income" : "cost" }),
    s("rect", { x: `${Math.min(at(0), 99.5)}%`, y: 0, width: 1, height: 10, class: "zero" }));
}

function startWords(model, field, due, outcome) {
  if (outcome.last_safe_start) return `start no later than ${dateWords(outcome.last_safe_start)}`;
  return due && outcome.chance_ready < model.wantedOf(field) ? "less sure than you asked" : "";
}

function summaryRow(model, field, outcome, low, high) {
  const { units } = model;
  const chosen = field.chosen.method === outcome.id;
  const due = model.due(field);
  return h("li", { class: chosen ? "option chosen" : "option" },
    h("div", { class: "option-name" }, swatch(model.plan, outcome.id), h("strong", {}, capital(model.methodName(outcome.id))), chosen && h("em", {}, "in the plan")),
    h("div", { class: "option-cost" }, h("span", {}, units.moneyPerArea(outcome.cost_per_ha)), costBar(outcome.cost_per_ha, low, high)),
    h("div", { class: "option-sure" }, due ? [chanceMark(outcome.chance_ready), h("span", { class: "dim" }, `middle year: ${readyWords(outcome.ready.p50)}`)] : "no seedbed due"),
    h("div", { class: "option-start dim" }, startWords(model, field, due, outcome)));
}

function barredRow(model, outcome) {
  return h("li", { class: "option barred" },
    h("div", { class: "option-name" }, swatch(model.plan, outcome.id), h("strong", {}, capital(model.methodName(outcome.id))), h("em", {}, "ruled out")),
    h("div", { class: "why" }, outcome.why_not.join("; ")));
}

function rowsOf(model, field) {
  const { units } = model;
  const three = (v, f) => `${f(v.p10)} – ${f(v.p50)} – ${f(v.p90)}`;
  const parts = Object.entries(partNames).map(([key, name]) => [name, (m) => units.number(m.cost_parts[key] / field.area_ha / units.perHa, 0), (m) => m.cost_parts[key] !== 0]);
  return [
    [`Money, ${model.plan.farm.currency}/${units.area}`, null],
    ...parts.slice(0, -2),
    ["All out of pocket", (m) => units.number(m.cost_per_ha / units.perHa, 0)],
    ...parts.slice(-2),
    ["Whole farm, this method here", (m) => units.money(m.farm_cost)],
    ["Work on this field", null],
    ["Machine hours, by shape and levees", (m) => units.hours(m.machine_h)],
    ["The same at typical field efficiency", (m) => units.hours(m.machine_h_typical)],
    ["People's hours", (m) => units.hours(m.labour_h)],
    [`Fuel, ${units.fuel}`, (m) => units.fuelNumber(m.fuel_l)],
    [`Canal water, ${units.water}`, (m) => units.waterNumber(m.water_m3)],
    ["Seedbed", null],
    [`Straw left in spring, ${units.mass}: low – middle – high year`, (m) => three(m.straw_left_kg_per_ha, units.massNumber)],
    ["Ready: early – middle – late year", (m) => (m.ready.p10 === null ? "nothing due" : three(m.ready, readyWords))],
    ["Last safe start of its first job", (m) => (m.last_safe_start ? dateWords(m.last_safe_start) : "none"), (m) => model.due(field) && m.possible],
    ["Ready by planting", (m) => (model.due(field) ? chanceWords(m.chance_ready) : "nothing due")],
    [`Grain lost by planting late, ${units.mass}: as priced – by the growers' rule`, (m) => `${units.massNumber(m.environment.late_loss_kg_per_ha.mean)} – ${units.massNumber(m.environment.late_loss_kg_per_ha.high)}`, (m) => m.environment.late_loss_kg_per_ha.high > 0],
    ...nextCropRows(model),
    [`Taken off the field, ${units.mass}`, null],
    ["Nitrogen", (m) => units.massFine(m.removed_kg_per_ha.n)],
    ["Phosphorus (P)", (m) => units.massFine(m.removed_kg_per_ha.p)],
    ["Potassium (K)", (m) => units.massFine(m.removed_kg_per_ha.k)],
    [`To replace it, ${model.plan.farm.currency}/${units.area}`, (m) => moneyRange(model, m.environment.replacement_per_ha), (m) => m.environment.replacement_per_ha !== null],
    ...airRows(model),
  ];
}

function allFigures(model, field, open) {
  const head = (m) => h("th", { scope: "col", class: m.id === field.chosen.method ? "chosen" : "" }, capital(model.methodName(m.id)));
  const body = rowsOf(model, field).filter(([, , wanted]) => !wanted || open.some(wanted)).map(([name, value]) => (value === null
    ? h("tr", { class: "group" }, h("th", { scope: "rowgroup", colspan: open.length + 1 }, name))
    : h("tr", {}, h("th", { scope: "row" }, name), open.map((m) => h("td", { class: m.id === field.chosen.method ? "chosen" : "" }, value(m))))));
  return h("details", { class: "figures on-demand" }, h("summary", {}, "Every figure of every method"),
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": `Every figure of every method, field ${field.id}` },
      h("table", {}, h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "Mean of the weather years"), open.map(head))), h("tbody", {}, body))),
    readingNotes(model));
}

export function comparison(model, field) {
  const open = field.methods.filter((m) => m.possible).sort((a, b) => a.cost_per_ha - b.cost_per_ha);
  const barred = field.methods.filter((m) => !m.possible);
  const costs = open.map((m) => m.cost_per_ha);
  const low = Math.min(0, ...costs);
  const high = Math.max(0, ...costs);
  const notes = open.filter((m) => m.notes.length > 0);
  return h("div", { class: "comparison" },
    h("h4", {}, "Every method on this field, cheapest first"),
    h("p", { class: "note" }, "Each as it would go in this farm, with all other fields as planned."),
    h("ul", { class: "options" }, open.map((m) => summaryRow(model, field, m, low, high)), barred.map((m) => barredRow(model, m))),
    open.length > 0 && allFigures(model, field, open),
    notes.length > 0 && h("details", {}, h("summary", {}, "Notes on these figures"),
      h("ul", {}, notes.map((m) => h("li", {}, `${capital(model.methodName(m.id))}: ${m.notes.join("; ")}.`)))));
}
