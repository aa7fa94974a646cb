// The chosen method against the next best: what it saves, what decides, what would have to change.

import { h, s } from "./dom.mjs";
import { partNames } from "./parts.mjs";
import { capital, count, listWords } from "./words.mjs";

const tossUps = {
  margin: "the difference is within your margin",
  years: "it is smaller than the scatter of the weather years",
  straw_price: "it turns within the spread you gave the straw price",
  diesel_price: "it turns within the spread you gave the price of diesel",
};

function headline(model, field, next) {
  const { units } = model;
  const other = `“${model.methodName(next.method)}”`;
  const apart = units.moneyPerArea(Math.abs(next.saves_per_ha));
  const sum = units.money(Math.abs(next.saves));
  if (field.chosen.toss_up_with !== null)
    return h("p", {}, h("strong", { class: "toss-up" }, "A toss-up"), ` with ${other}: over all years that would be ${apart} ${next.saves >= 0 ? "dearer" : "cheaper"} (${sum} a year for the farm), but ${listWords(field.chosen.toss_up_because.map((k) => tossUps[k]))}.`);
  if (next.saves >= 0)
    return h("p", {}, h("strong", {}, `Saves ${apart}`), ` against ${other}, the next best: ${sum} a year for the farm.`);
  return h("p", {}, h("strong", {}, `${capital(model.methodName(next.method))} would cost ${apart} less`), ` over all years, ${sum} a year for the farm${field.chosen.locked ? ": the price of your lock." : ". The choice was made on the other half of the years."}`);
}

function amountWords(units, value) {
  const shown = units.moneyPerArea(Math.abs(value));
  if (shown === units.moneyPerArea(0)) return `about ${shown}`;
  return `${value >= 0 ? "saves" : "costs"} ${shown}`;
}

// Parts as bars from a middle line: to the right they speak for the chosen method.
function partBars(model, field, next) {
  const { units } = model;
  const perHa = (money) => money / field.area_ha;
  const out = next.parts.filter((p) => p.part !== "ownership" && p.part !== "own_labour");
  const shown = out.slice(0, 5);
  const rest = out.slice(5).reduce((sum, p) => sum + p.saves, 0);
  const rows = shown.map((p) => [partNames[p.part], perHa(p.saves)]);
  if (out.length > 5) rows.push(["All other parts", perHa(rest)]);
  const widest = Math.max(...rows.map(([, v]) => Math.abs(v)), 1e-9);
  return h("table", { class: "part-bars" }, h("caption", {}, "Where the difference comes from"),
    h("tbody", {}, rows.map(([name, value]) => h("tr", {}, h("th", { scope: "row" }, name),
      h("td", { class: "bar" }, s("svg", { width: "100%", height: 12, "aria-hidden": "true" },
        s("rect", { x: `${50 - (value < 0 ? (48 * -value) / widest : 0)}%`, y: 1, width: `${Math.max((48 * Math.abs(value)) / widest, 0.6)}%`, height: 10, class: value < 0 ? "against" : "for" }),
        s("rect", { x: "50%", y: 0, width: 1, height: 12, class: "zero" }))),
      h("td", { class: "amount" }, amountWords(units, value))))));
}

function priceName(model, row) {
  if (row.implement !== null) return capital(model.nameOf(row.implement));
  if (row.price === "diesel") return "Diesel";
  return row.price === "water" ? "Canal water" : "Straw";
}

function turningRow(model, row) {
  const { units } = model;
  const price = (value) => units.price(value, row.by);
  const turns = row.even === null ? "no price within reach"
    : `${row.even < row.now ? "below" : "above"} ${price(row.even)}`;
  return h("tr", {}, h("th", { scope: "row" }, priceName(model, row)), h("td", {}, price(row.now)), h("td", {}, turns));
}

function turning(model, field, next) {
  if (next.break_even.length === 0) return null;
  const winner = next.saves >= 0 ? next.method : field.chosen.method;
  return h("div", {}, h("table", { class: "turning" },
    h("caption", {}, `When “${model.methodName(winner)}” would be the cheaper one`),
    h("thead", {}, h("tr", {}, ["Price of", "Now", "It turns"].map((t) => h("th", { scope: "col" }, t)))),
    h("tbody", {}, next.break_even.map((row) => turningRow(model, row)))),
    h("p", { class: "note" }, "Each price alone, with the same work. A price above four times today's, or below a quarter of it, counts as out of reach; straw may fall to nothing."));
}

// A column a year, from the year that speaks most for the chosen method to the one that speaks most against it.
function years(model, field, next) {
  const all = model.plan.weather.years.map((year, i) => ({ year, saves: next.saves_by_year[i] })).sort((a, b) => b.saves - a.saves);
  if (all.length < 2) return null;
  const widest = Math.max(...all.map((y) => Math.abs(y.saves)), 1e-9);
  const won = all.filter((y) => y.saves < 0).length;
  const step = 100 / all.length;
  return h("figure", { class: "year-columns" },
    s("svg", { width: "100%", height: 64, role: "img", "aria-label": `${model.methodName(next.method)} is cheaper in ${won} of ${all.length} years` },
      all.map((y, i) => s("rect", { x: `${i * step + 0.15 * step}%`, y: y.saves >= 0 ? 32 - (30 * y.saves) / widest : 32, width: `${0.7 * step}%`, height: Math.max((30 * Math.abs(y.saves)) / widest, 1), class: y.saves < 0 ? "against" : "for" },
        s("title", {}, `${y.year}: ${model.units.money(y.saves)}`))),
      s("rect", { x: 0, y: 31.5, width: "100%", height: 1, class: "zero" })),
    h("figcaption", { class: "note" }, `One column a weather year: up, the plan's choice was cheaper for the farm; down, “${model.methodName(next.method)}” was (${count(won, "year", "years")} of ${all.length}).`));
}

function earlier(model, field, next) {
  const cut = next.cut_earlier;
  if (cut === null) return null;
  const ahead = cut.saves >= 0 ? field.chosen.method : next.method;
  return h("p", {}, `${cut.days === 7 ? "Cut a week earlier" : `Cut ${count(cut.days, "day", "days")} earlier`}, “${model.methodName(ahead)}” would be ahead by ${model.units.moneyPerArea(Math.abs(cut.saves_per_ha))}.`);
}

export function waiting(model, field) {
  const cost = field.chosen.wait_a_week_cost;
  if (cost === null || cost === undefined) return null;
  const words = Math.abs(cost) < 0.5 ? "costs nothing" : `${cost > 0 ? "costs" : "saves"} the farm ${model.units.money(Math.abs(cost))}`;
  return h("p", {}, `Waiting a week with the first step ${words}, mean of the years.`);
}

export function nextBest(model, field) {
  const next = field.chosen.next_best;
  if (!next) return null;
  const { units } = model;
  return h("div", { class: "next-best" }, h("h4", {}, "Against the next best"),
    headline(model, field, next),
    next.decides.length > 0 && h("ul", { class: "decides" }, next.decides.map((d) => h("li", {}, capital(units.told(d.text)), "."))),
    h("div", { class: "next-best-parts" }, h("div", {}, partBars(model, field, next), years(model, field, next)),
      h("div", {}, turning(model, field, next), earlier(model, field, next), waiting(model, field))));
}
