// Two plans side by side: money, chances, methods field by field, hours, fuel, water, air.

import { h, s, section } from "./dom.mjs";
import { modelOf } from "./model.mjs";
import { partNames } from "./parts.mjs";
import { capital, chanceWords, count, dateWords } from "./words.mjs";

const outcomes = (model) => model.plan.fields.map((f) => [f, model.outcomeOf(f)]).filter(([, m]) => m);
const sum = (model, of) => outcomes(model).reduce((all, [f, m]) => all + of(m, f), 0);

// How the two are called.
const plainNames = { here: "This page", there: "The other plan", hereLong: null, thereLong: null };

function planName(model) {
  const { farm, seed, version } = model.plan;
  return `${farm.name}, planned on ${dateWords(farm.as_of, true)} (seed ${seed}, aftercut ${version})`;
}

// Rows of [name, number of a model, words of a number, less is better].
function moneyRows(model) {
  const { units } = model;
  const parts = Object.entries(partNames).slice(0, -2).map(([key, name]) => [name, (m) => sum(m, (o) => o.cost_parts[key]), units.money]);
  return [...parts.filter(([, of]) => of(model) !== 0), ["All out of pocket", (m) => m.plan.objective.plan, units.money], ["With your own machines and hours", (m) => m.plan.objective.full, units.money]];
}

function workRows(model) {
  const { units } = model;
  return [
    ["Machine hours", (m) => sum(m, (o) => o.machine_h), units.hours],
    ["People's hours", (m) => sum(m, (o) => o.labour_h), units.hours],
    [`Fuel, ${units.fuel}`, (m) => sum(m, (o) => o.fuel_l), units.fuelNumber],
    [`Canal water, ${units.water}`, (m) => sum(m, (o) => o.water_m3), units.waterNumber],
    ["Fine smoke (PM2.5), kg", (m) => sum(m, (o) => o.emissions_kg.pm25), (x) => units.number(x, 0)],
    ["Carbon monoxide (CO), kg", (m) => sum(m, (o) => o.emissions_kg.co), (x) => units.number(x, 0)],
    ["CO₂ equivalents, t", (m) => sum(m, (o, f) => (o.environment.co2e_kg_per_ha.all.mean * f.area_ha) / 1000), (x) => units.number(x, 0)],
  ];
}

function figures(caption, rows, model, other, names) {
  return h("table", { class: "two-figures" }, h("caption", {}, caption),
    h("thead", {}, h("tr", {}, ["", names.here, names.there, "Difference"].map((t) => (t ? h("th", { scope: "col" }, t) : h("td", {}))))),
    h("tbody", {}, rows.map(([name, of, words]) => {
      const [a, b] = [of(model), of(other)];
      return h("tr", {}, h("th", { scope: "row" }, name), h("td", {}, words(a)), h("td", {}, words(b)), h("td", {}, words(a) === words(b) ? "the same" : `${b > a ? "+" : "-"}${words(Math.abs(b - a))}`));
    })));
}

function changeWords(model, field, there) {
  const here = model.outcomeOf(field), then = there.methods.find((m) => m.id === there.chosen.method && m.possible);
  const name = (id) => (id === null ? "no method" : `“${model.methodName(id)}”`);
  const money = here && then ? Math.round(then.cost_per_ha - here.cost_per_ha) : 0;
  const cost = !here || !then ? "" : money === 0 ? ", for the same money" : `, ${model.units.moneyPerArea(Math.abs(money))} ${money > 0 ? "dearer" : "cheaper"}`;
  return `${capital(name(there.chosen.method))} instead of ${name(field.chosen.method)}${cost}.`;
}

function changeList(model, other) {
  const both = model.plan.fields.filter((f) => other.fieldById(f.id));
  const changed = both.filter((f) => other.fieldById(f.id).chosen.method !== f.chosen.method);
  const only = (a, b) => a.plan.fields.filter((f) => !b.fieldById(f.id)).map((f) => f.id);
  return h("div", {}, h("h3", {}, "Methods that change"),
    changed.length === 0 ? h("p", {}, "None: both plans do the same on every field.")
      : h("ul", { class: "two-changes" }, changed.map((f) => h("li", { "data-field": f.id }, h("strong", {}, `Field ${f.id}: `), changeWords(model, f, other.fieldById(f.id))))),
    only(model, other).length > 0 && h("p", { class: "note" }, `Only on this page: field ${only(model, other).join(", ")}.`),
    only(other, model).length > 0 && h("p", { class: "note" }, `Only in the other plan: field ${only(other, model).join(", ")}.`));
}

// One line a field: a ring for this page, a dot for the other plan.
function chancePicture(here, there) {
  const x = (c) => 6 + 88 * c;
  return s("svg", { width: 100, height: 16, "aria-hidden": "true", class: "two-chances" },
    s("path", { class: "base", d: "M6 8H94" }), s("path", { class: "base thick", d: `M${x(here)} 8H${x(there)}` }),
    s("circle", { class: "ring", cx: x(here), cy: 8, r: 5 }), s("circle", { class: "dot", cx: x(there), cy: 8, r: 3 }));
}

function chances(model, other, names) {
  const rows = model.plan.fields.filter((f) => model.due(f) && other.fieldById(f.id) && model.outcomeOf(f) && other.outcomeOf(other.fieldById(f.id)));
  const key = h("p", { class: "note" }, `Ring: ${uncapital(names.here)}. Dot: ${uncapital(names.there)}. Left is never, right is every year.`);
  return h("details", { class: "long", open: rows.length <= 30 }, h("summary", {}, "Chance of a seedbed by planting, field by field"), key,
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Chance of each field in both plans" }, h("table", {},
      h("thead", {}, h("tr", {}, ["Field", "", names.here, names.there].map((t) => (t ? h("th", { scope: "col" }, t) : h("td", {}))))),
      h("tbody", {}, rows.map((f) => {
        const [a, b] = [model.outcomeOf(f).chance_ready, other.outcomeOf(other.fieldById(f.id)).chance_ready];
        return h("tr", {}, h("th", { scope: "row" }, f.id), h("td", {}, chancePicture(a, b)), h("td", {}, chanceWords(a)), h("td", {}, chanceWords(b)));
      })))));
}

const uncapital = (text) => text.charAt(0).toLowerCase() + text.slice(1);

// Both plans in the units of this page. `names`: as plainNames, for plans that are called otherwise.
export function twoPlansSection(model, otherModel, names = plainNames) {
  const apart = model.plan.farm.currency !== otherModel.plan.farm.currency;
  return h("div", { class: "two-plans" },
    h("p", {}, h("strong", {}, `${names.here}: `), names.hereLong ?? planName(model), h("br", {}), h("strong", {}, `${names.there}: `), names.thereLong ?? planName(otherModel)),
    apart && h("p", { class: "warning" }, `The other plan counts in ${otherModel.plan.farm.currency}: its money cannot be set beside ${model.plan.farm.currency}.`),
    h("div", { class: "answers" },
      !apart && h("div", { class: "answer" }, figures("Money, mean of the weather years", moneyRows(model), model, otherModel, names)),
      h("div", { class: "answer" }, figures("Work, water and air", workRows(model), model, otherModel, names))),
    changeList(model, otherModel), chances(model, otherModel, names));
}

function readPlan(text) {
  const plan = JSON.parse(text);
  if (plan?.schema !== "aftercut-plan-1" || !Array.isArray(plan.fields)) throw new Error("no plan");
  return plan;
}

async function show(model, file, place) {
  try {
    const other = modelOf(readPlan(await file.text()), model.shapes);
    place.replaceChildren(twoPlansSection(model, other));
  } catch {
    place.replaceChildren(h("p", { class: "warning", role: "alert" }, `${file.name} is not a plan.json of this program. Choose the plan.json that stands beside a report.html.`));
  }
}

export function otherPlanSection(model) {
  const place = h("div", { "aria-live": "polite" });
  const chooser = h("input", { type: "file", id: "other-plan", accept: ".json,application/json", onchange: (event) => event.target.files[0] && show(model, event.target.files[0], place) });
  return section("two-plans", "Two plans side by side", null,
    h("p", { class: "control" }, h("label", { for: "other-plan" }, "Compare with another plan.json: "), chooser),
    h("p", { class: "note control" }, "The file is read here and goes nowhere."), place);
}
