// Other plans of the same farm, each with other weights: cost against chance, air or straw, to look at and to take.

import { scaleLinear } from "d3-scale";
import { h, onWidth, s, section } from "./dom.mjs";
import { count } from "./words.mjs";

const measures = (units) => ({
  chance: { name: "Seedbed by planting", of: (p) => 100 * p.chance, words: (p) => `${units.number(100 * p.chance, 1)} % of the ground in time`, axis: "% of the ground, mean of years", best: "more" },
  co2e_t: { name: "CO₂ equivalents", of: (p) => p.co2e_t, words: (p) => `${units.number(p.co2e_t, 0)} t CO₂e`, axis: "t a year", best: "less" },
  baled_t: { name: "Straw baled", of: (p) => p.baled_t, words: (p) => `${units.number(p.baled_t, 0)} t baled`, axis: "t a year", best: "more" },
});

// What a plan weighs otherwise than its price: "late days count 2.5 times, straw worth $12.00/t more".
export function weightWords({ units }, plan) {
  const { late_times: late = 1, straw_per_t: straw = 0, co2e_per_t: air = 0 } = plan.weights ?? {};
  const words = [late !== 1 && `late days count ${units.number(late, late % 1 === 0 ? 0 : 1)} times`, straw !== 0 && `straw worth ${units.price(straw, "t")} more`,
    air !== 0 && `each t of CO₂e costs ${units.money(air)}`].filter(Boolean);
  return words.length > 0 ? words.join(", ") : plan.weights ? "money alone" : plan.name;
}

function pointWords(model, measure, plan, number) {
  return `${number}: ${weightWords(model, plan)}, ${model.units.money(plan.cost)} a year, ${measure.words(plan)}`;
}

const edge = { left: 62, right: 26, top: 18, bottom: 44 };

function point(model, measure, plan, i, x, y, state) {
  const at = `translate(${x(plan.cost)},${y(measure.of(plan))})`;
  return s("g", {
    class: plan.folder === state.shown ? "trade-point shown" : "trade-point", transform: at, role: "button", tabindex: 0,
    "aria-pressed": String(plan.folder === state.shown), "aria-label": pointWords(model, measure, plan, i + 1), "data-plan": plan.folder,
    onclick: () => state.show(plan.folder),
    onkeydown: (event) => {
      if (!["Enter", " "].includes(event.key)) return;
      event.preventDefault();
      state.show(plan.folder);
    },
  }, s("circle", { class: "reach", r: 14 }), i === 0 ? s("rect", { x: -7, y: -7, width: 14, height: 14 }) : s("circle", { class: "dot", r: 7 }),
  s("text", { x: 11, y: -9 }, String(i + 1)));
}

function chart(model, plans, measure, width, state) {
  const height = Math.min(360, Math.max(260, width * 0.5));
  const costs = plans.map((p) => p.cost), values = plans.map(measure.of);
  const wide = (all) => { const [a, b] = [Math.min(...all), Math.max(...all)]; const by = 0.08 * (b - a) || Math.max(Math.abs(a) * 0.05, 1); return [a - by, b + by]; };
  const x = scaleLinear(wide(costs), [edge.left, width - edge.right]);
  const y = scaleLinear(wide(values), [height - edge.bottom, edge.top]);
  return s("svg", { width, height, role: "group", "aria-label": `${measure.name} against cost, ${count(plans.length, "plan", "plans")}` },
    y.ticks(5).map((t) => [s("path", { class: "month", d: `M${edge.left} ${y(t)}H${width - edge.right}` }), s("text", { class: "axis", x: edge.left - 6, y: y(t) + 4, "text-anchor": "end" }, y.tickFormat(5)(t))]),
    x.ticks(width < 500 ? 3 : 6).map((t) => [s("path", { class: "month", d: `M${x(t)} ${edge.top}V${height - edge.bottom}` }), s("text", { class: "axis", x: x(t), y: height - edge.bottom + 16, "text-anchor": "middle" }, model.units.money(t))]),
    s("text", { class: "axis title", x: width - edge.right, y: height - 6, "text-anchor": "end" }, "cost a year: dearer to the right"),
    s("text", { class: "axis title", x: 2, y: 11 }, width < 480 ? `${measure.name} (${measure.best} is better)` : `${measure.name}, ${measure.axis} (${measure.best} is better)`),
    plans.map((p, i) => point(model, measure, p, i, x, y, state)));
}

function changes(model, plan) {
  const differ = plan.methods.filter((m) => model.fieldById(m.field) && model.fieldById(m.field).chosen.method !== m.method);
  if (differ.length === 0) return h("p", {}, "The same method on every field as in the plan of this page.");
  return h("ul", {}, differ.map((m) => h("li", {}, `Field ${m.field}: ${m.method === null ? "no method" : model.methodName(m.method)} instead of ${model.methodName(model.fieldById(m.field).chosen.method)}`)));
}

function detail(model, plan, number, choose) {
  const { units } = model;
  return h("div", { class: "answer" }, h("h3", {}, `${number}. ${weightWords(model, plan)}`),
    h("p", {}, `${units.money(plan.cost)} a year (${units.moneyPerArea(plan.cost_per_ha)}), ${units.number(100 * plan.chance, 1)} % of the ground ready by planting, ${plan.fields_below_wanted === 0 ? "no field" : count(plan.fields_below_wanted, "field", "fields")} below the wanted chance; ${units.number(plan.co2e_t, 0)} t CO₂e, ${units.number(plan.baled_t, 0)} t baled, ${units.areaWords(plan.burned_ha)} burned.`),
    plan.dominated && h("p", { class: "note" }, "Another plan here is as good in everything."),
    changes(model, plan),
    choose && h("p", {}, h("button", { type: "button", class: "take", onclick: () => choose(plan.folder) }, "Take this plan")));
}

function table(model, plans, state) {
  const { units } = model;
  const head = ["Plan", "Cost a year", "Ready by planting", "CO₂e, t", "Baled, t", `Burned, ${units.area}`, "Fields changed"];
  return h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Every plan" }, h("table", { class: "trade-table" },
    h("thead", {}, h("tr", {}, head.map((t) => h("th", { scope: "col" }, t)))),
    h("tbody", {}, plans.map((p, i) => h("tr", { class: p.folder === state.shown ? "chosen" : "", "data-plan": p.folder },
      h("th", { scope: "row" }, h("button", { type: "button", class: "plain", "aria-pressed": String(p.folder === state.shown), onclick: () => state.show(p.folder) }, `${i + 1}. ${weightWords(model, p)}`)),
      [units.money(p.cost), `${units.number(100 * p.chance, 1)} %`, units.number(p.co2e_t, 0), units.number(p.baled_t, 0), units.number(p.burned_ha * units.perHa, 0), String(p.fields_unlike_base)].map((t) => h("td", {}, t)))))));
}

// `choose(folder)` is called by "Take this plan"; without it there is no such button.
export function tradeOffsSection(model, tradeOffs, choose) {
  if (!tradeOffs) return null;
  const { plans } = tradeOffs;
  const all = measures(model.units);
  const picture = h("div", { class: "picture" });
  const rest = h("div", { "aria-live": "polite" });
  const rows = h("div", {});
  let measure = "chance", width = 0;
  const state = { shown: plans[0].folder, show: (folder) => { state.shown = folder; put(); } };
  function put() {
    const focused = picture.contains(document.activeElement) ? document.activeElement.dataset.plan : null;
    const inTable = rows.contains(document.activeElement);
    if (width > 0) picture.replaceChildren(chart(model, plans, all[measure], width, state));
    const at = plans.findIndex((p) => p.folder === state.shown);
    rest.replaceChildren(detail(model, plans[at], at + 1, choose));
    rows.replaceChildren(table(model, plans, state));
    if (focused) picture.querySelector(`[data-plan="${CSS.escape(focused)}"]`)?.focus();
    if (inTable) rows.querySelector(`[data-plan="${CSS.escape(state.shown)}"] button`)?.focus();
  }
  const select = h("select", { id: "trade-measure", onchange: (event) => { measure = event.target.value; put(); } }, Object.entries(all).map(([id, m]) => h("option", { value: id }, m.name)));
  const part = section("trade-offs-part", "What else a plan can weigh", `Each point is a whole plan of this farm, searched with other weights and priced as it is. The square is the base plan, which counts money alone. ${tradeOffs.dominated_left_out > 0 ? `${count(tradeOffs.dominated_left_out, "plan is", "plans are")} left out because another is as good in everything.` : ""}`,
    h("p", { class: "control" }, h("label", { for: "trade-measure" }, "Against cost: "), select), picture, rest, rows);
  onWidth(picture, (w) => { width = w; put(); });
  put();
  return part;
}
