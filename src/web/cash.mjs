// Money by calendar month: what goes out and comes in, and what has gone out so far.

import { scaleLinear } from "d3-scale";
import { h, onWidth, s, section } from "./dom.mjs";

const monthNames = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
const partNames = {
  fuel: "Fuel", wages: "Wages", hire: "Hired outfits", twine: "Twine", repair: "Repairs", water: "Canal water", fees: "Burn fees",
  late: "Planted late", unplanted: "Left unplanted", straw_income: "Straw sold", lease_income: "Water lease",
};

function monthWords(month) {
  return `${monthNames[+month.slice(5) - 1]} ${month.slice(0, 4)}`;
}

function draw(model, rows, width) {
  const left = 4;
  const top = 8;
  const height = 150;
  const low = Math.min(0, ...rows.map((r) => Math.min(r.sum, r.p10)));
  const high = Math.max(1, ...rows.map((r) => Math.max(r.sum, r.p90)));
  const y = scaleLinear([low, high], [top + height, top]);
  const step = (width - 2 * left) / rows.length;
  const wide = Math.min(step * 0.5, 46);
  const bars = rows.map((r, i) => {
    const middle = left + step * (i + 0.5);
    const money = model.units.money(r.sum);
    return [s("rect", { class: r.sum < 0 ? "coming" : "going", x: middle - wide / 2, width: wide, y: y(Math.max(0, r.sum)), height: Math.max(Math.abs(y(r.sum) - y(0)), 1) }),
      s("path", { class: "reach", d: `M${middle} ${y(r.p10)}V${y(r.p90)}M${middle - 5} ${y(r.p10)}h10M${middle - 5} ${y(r.p90)}h10` }),
      width >= 620 && s("text", { class: "axis", x: middle, y: top + height + 33, "text-anchor": "middle" }, money),
      s("text", { class: "axis", x: middle, y: top + height + 17, "text-anchor": "middle" }, monthNames[+r.month.slice(5) - 1].slice(0, width < 420 ? 1 : 3))];
  });
  return s("svg", { width, height: top + height + (width >= 620 ? 40 : 26), role: "img", "aria-label": `Money by month: ${rows.map((r) => `${monthWords(r.month)} ${model.units.money(r.sum)}`).join(", ")}` },
    s("path", { class: "base", d: `M0 ${y(0)}H${width}` }), bars);
}

function table(model, rows) {
  const { units } = model;
  const used = Object.keys(partNames).filter((key) => rows.some((r) => r.parts[key] !== 0));
  const number = (x) => (Math.round(x) === 0 ? "–" : units.number(x, 0));
  const cell = (x) => h("td", {}, number(x));
  let soFar = 0;
  const body = rows.map((r) => {
    soFar += r.sum;
    return h("tr", {}, h("th", { scope: "row" }, monthWords(r.month)), h("td", { class: "chosen" }, number(r.sum)), cell(soFar),
      h("td", {}, `${units.number(r.p10, 0)} to ${units.number(r.p90, 0)}`), used.map((k) => cell(r.parts[k])));
  });
  const total = (key) => rows.reduce((sum, r) => sum + r.parts[key], 0);
  return h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Money by month, every part" },
    h("table", { class: "cash" },
      h("thead", {}, h("tr", {}, [`Month, ${model.plan.farm.currency}`, "All", "So far", "Low to high year", ...used.map((k) => partNames[k])].map((t) => h("th", { scope: "col" }, t)))),
      h("tbody", {}, body, h("tr", { class: "sum" }, h("th", { scope: "row" }, "All months"), h("td", { class: "chosen" }, number(model.plan.objective.plan)),
        h("td", {}, ""), h("td", {}, ""), used.map((k) => cell(total(k)))))));
}

export function cashSection(model) {
  const rows = model.plan.cash;
  if (rows.length === 0) return null;
  const box = h("div", { class: "hours-drawing" });
  onWidth(box, (width) => box.replaceChildren(draw(model, rows, width)));
  const peak = rows.reduce((a, b) => (b.sum > a.sum ? b : a));
  return section("cash", "Money by month",
    `Out of pocket, mean of ${model.plan.weather.years.length} weather years. Most goes out in ${monthWords(peak.month)}: ${model.units.money(peak.sum)}, and in one year in ten ${model.units.money(peak.p90)} or more.`,
    h("ul", { class: "key" }, h("li", {}, swatchOf("going"), "goes out"), h("li", {}, swatchOf("coming"), "comes in"),
      h("li", {}, swatchOf("reach"), "eight years in ten lie between the ends")),
    box, table(model, rows),
    h("p", { class: "note" }, "Grain lost by planting late and the margin of fields left unplanted are booked in the month of planting. A minus comes in."));
}

function swatchOf(kind) {
  return s("svg", { width: 26, height: 20, "aria-hidden": "true" }, kind === "reach" ? s("path", { class: "reach", d: "M13 2V18M8 2h10M8 18h10" }) : s("rect", { class: kind, x: 4, y: 4, width: 18, height: 14 }));
}
