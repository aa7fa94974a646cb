// What a tenth more of a machine, a person or a limit would save, and in which weeks.

import { scaleLinear } from "d3-scale";
import { h, onWidth, s, section } from "./dom.mjs";
import { dateWords, dayNumber, monthName } from "./words.mjs";

const limitNames = { burn_day_area: "Burn area of a day", burn_season_area: "Burn area of the season", canal_flow: "Canal flow" };

function nameOf(model, thing) {
  if (limitNames[thing.kind]) return limitNames[thing.kind];
  return thing.kind === "hired_days" ? `${model.nameOf(thing.id)}, days` : model.nameOf(thing.id);
}

const told = (week) => week.worth > 2 * week.standard_error && week.worth >= 1;

// No "$0" for what is worth something.
function leastWords(model, money) {
  return money > 0 && money < 0.5 ? `under ${model.units.money(1)}` : model.units.money(money);
}

// Money for each hour, hectare a day or unit of flow in one week.
function perUnitWords(model, thing, week) {
  if (thing.unit === "h") return `${leastWords(model, week.per_unit)} an hour`;
  return `${model.units.money(week.worth)} for ${amountWords(model, { ...thing, more: week.more })} more${thing.unit === "ha" ? " a day" : ""}`;
}

function weekWords(model, thing) {
  const weeks = thing.weeks.filter(told);
  if (weeks.length === 0) return "no single week stands out";
  const best = weeks.reduce((a, b) => (b.per_unit > a.per_unit ? b : a));
  return `most in the week of ${dateWords(best.start)}: ${perUnitWords(model, thing, best)}`;
}

// One cell a week, its height and shade by money an hour; weeks that cannot be told from nothing stay a line.
function strip(model, thing, width) {
  const height = 34;
  const x = scaleLinear([model.firstDay, model.lastDay + 1], [0, width]);
  const weeks = thing.weeks.filter(told);
  const most = Math.max(...weeks.map((w) => w.per_unit), 1e-9);
  const cells = weeks.map((w) => {
    const left = x(dayNumber(w.start)) + 0.5;
    const wide = Math.max(x(dayNumber(w.start) + 7) - left - 1, 1);
    const tall = Math.max((w.per_unit / most) * height, 2);
    return s("rect", { class: "used", x: left, width: wide, y: height - tall, height: tall },
      s("title", {}, `${dateWords(w.start)}: ${perUnitWords(model, thing, w)}`));
  });
  const months = [];
  for (let day = model.firstDay + 1; day <= model.lastDay; day += 1) {
    if (monthName(day) !== monthName(day - 1)) months.push(day);
  }
  return s("svg", { width, height: height + 18, role: "img", "aria-label": `${nameOf(model, thing)}, more by week: ${weekWords(model, thing)}` },
    cells, s("path", { class: "base", d: `M0 ${height}H${width}` }),
    months.filter((_, i) => i % (width < 420 ? 2 : 1) === 0).map((day) => s("text", { class: "axis", x: x(day), y: height + 15 }, monthName(day))));
}

function amountWords(model, thing) {
  const { units } = model;
  if (thing.unit === "h") return `${units.hours(thing.more)} h`;
  if (thing.unit === "ha") return units.areaWords(thing.more);
  return `${units.number(thing.more, thing.unit === "m3/s" ? 2 : 0)} ${thing.unit === "m3/s" ? "m³/s" : thing.more === 1 ? "day" : "days"}`;
}

function eachWords(model, thing) {
  const { units } = model;
  const unit = thing.unit === "m3/s" ? "m³/s" : thing.unit;
  const each = thing.worth / thing.more;
  return each > 0 && each < 0.01 ? `under ${units.price(0.01, unit).replace("0.0100", "0.01")}` : units.price(each, unit);
}

function byWeek(model, thing) {
  if (!thing.weeks.some(told)) return false;
  const box = h("div", { class: "hours-drawing" });
  onWidth(box, (width) => box.replaceChildren(strip(model, thing, width)));
  return h("li", { class: "resource" }, h("h4", {}, nameOf(model, thing)), h("p", { class: "dim" }, weekWords(model, thing)), box);
}

export function worthSection(model) {
  const all = model.plan.one_more_worth;
  if (!all) return null;
  const things = all.things.filter((t) => t.told).sort((a, b) => b.worth - a.worth);
  const { units } = model;
  const lead = `A tenth more of each machine, person and limit, one at a time, with the methods and the order of work of this plan kept; mean over ${all.plans} plans near this one. A rough guide: a farm that had more would plan otherwise.`;
  if (things.length === 0) {
    return section("one-more", "What one more is worth", lead, h("p", { class: "note" }, "Nothing is worth more than can be told from chance."));
  }
  const strips = things.map((t) => byWeek(model, t)).filter(Boolean);
  return section("one-more", "What one more is worth", lead,
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "What one more is worth" },
      h("table", { class: "cash" },
        h("thead", {}, h("tr", {}, ["More of", "A tenth is", "Saves a year", "Give or take", "For each unit"].map((t) => h("th", { scope: "col" }, t)))),
        h("tbody", {}, things.map((t) => h("tr", {}, h("th", { scope: "row" }, nameOf(model, t)), h("td", {}, amountWords(model, t)),
          h("td", { class: "chosen" }, units.money(t.worth)), h("td", {}, units.money(t.standard_error)),
          h("td", {}, eachWords(model, t))))))),
    strips.length > 0 && [h("h3", {}, "Hours by week"), h("ul", { class: "resources" }, strips)],
    h("p", { class: "note" }, "More hours of a person are longer days. More hours of a machine are a second one like it: on one day in ten in the table, for the whole week in the pictures. What is not listed saves too little to be told from chance."));
}
