// Straw and ground of one field from harvest to planting: the middle year as a line, 8 years in 10 as a band.

import { area, line } from "d3-shape";
import { scaleLinear } from "d3-scale";
import { h, onWidth, s } from "./dom.mjs";
import { chanceWords, dateWords, dayNumber, isoOf, monthName } from "./words.mjs";

const left = 46, tall = 118, gap = 34;

const daysOf = (winter) => winter.under_water.map((_, i) => dayNumber(winter.first) + i * winter.every_days);

function monthsIn(days) {
  const out = [];
  for (let day = days[0]; day <= days[days.length - 1]; day += 1) if (new Date(day * 86400000).getUTCDate() === 1) out.push(day);
  return out;
}

// Band and line of p10, p50, p90 in a panel whose top stands at `top`.
function band(days, spread, x, y, kind) {
  const shape = area().x((_, i) => x(days[i])).y0((_, i) => y(spread.p10[i])).y1((_, i) => y(spread.p90[i]));
  return s("g", { class: kind },
    s("path", { class: "band", d: shape(spread.p50) ?? "" }),
    s("path", { class: "middle-line", d: line().x((_, i) => x(days[i])).y(y)(spread.p50) ?? "" }));
}

function axis(y, ticks, width, format) {
  return ticks.map((t) => [s("path", { class: "month", d: `M${left} ${y(t)}H${width}` }),
    s("text", { class: "axis", x: left - 5, y: y(t) + 4, "text-anchor": "end" }, format(t))]);
}

function straw(model, winter, days, x, width) {
  const top = Math.max(...winter.straw_kg_per_ha.p90, 1) * model.units.perMass;
  const y = scaleLinear([0, top], [20 + tall, 20]).nice(4);
  const mass = (kg) => y(kg * model.units.perMass);
  return [s("text", { class: "axis title", x: left, y: 12 }, `Straw on and in the ground, ${model.units.mass}`),
    axis(y, y.ticks(4), width, (t) => model.units.number(t, 0)), band(days, winter.straw_kg_per_ha, x, mass, "straw-band")];
}

function ground(winter, days, x, width) {
  const top = 20 + tall + gap + 20;
  const y = scaleLinear([0, 1], [top + tall, top]);
  const wide = Math.max((x(days[1] ?? days[0] + 7) - x(days[0])) - 2, 1.5);
  return [s("text", { class: "axis title", x: left, y: top - 8 }, "Water in the seedbed, % of its pores"),
    winter.under_water.map((share, i) => share > 0 && s("rect", { class: "pond", x: x(days[i]) - wide / 2, width: wide, y: y(share), height: top + tall - y(share), fill: "url(#held-water)" })),
    axis(y, [0, 0.5, 1], width, (t) => String(100 * t)), band(days, winter.pores_full, x, y, "wet-band"),
    s("path", { class: "limit", d: `M${left} ${y(winter.workable_below)}H${width}` }),
    s("text", { class: "axis haloed", x: width - 2, y: y(winter.workable_below) + 14, "text-anchor": "end" }, "can be worked below this")];
}

function draw(model, field, width) {
  const { winter } = field;
  const days = daysOf(winter);
  const x = scaleLinear([days[0], Math.max(days[days.length - 1], days[0] + 7)], [left + 2, width - 4]);
  const height = 20 + tall + gap + 20 + tall + 22;
  const months = monthsIn(days);
  const every = width < 420 ? 2 : 1;
  return s("svg", { width, height, role: "img", "aria-label": `${soilWords(model, field)} The figures by month stand in the table below.` },
    months.map((day) => s("path", { class: "month", d: `M${x(day)} 20V${20 + tall}M${x(day)} ${40 + tall + gap}V${height - 22}` })),
    straw(model, winter, days, x, width), ground(winter, days, x, width),
    months.filter((day, i) => i % every === 0 && x(day) < width - 26).map((day) => s("text", { class: "axis", x: x(day) + 2, y: height - 5 }, monthName(day))));
}

function soilWords(model, field) {
  const { straw_kg_per_ha: mass, under_water: wet, first } = field.winter;
  const last = mass.p50.length - 1;
  const most = Math.max(...wet);
  const days = daysOf(field.winter);
  const water = most > 0 ? ` Most often under water about ${dateWords(isoOf(days[wet.indexOf(most)]))}: in ${chanceWords(most)}.` : " Never under water.";
  return `Straw in the middle year: ${model.units.massWords(mass.p50[0])} on ${dateWords(first)}, ${model.units.massNumber(mass.p50[last])} on ${dateWords(isoOf(days[last]))}, where 8 years in 10 lie between ${model.units.massNumber(mass.p10[last])} and ${model.units.massNumber(mass.p90[last])}.${water}`;
}

function table(model, field) {
  const { winter } = field;
  const mass = model.units.massNumber;
  const share = (v) => String(Math.round(100 * v));
  const days = daysOf(winter);
  const weeks = days.map((_, i) => i).filter((i) => i % 4 === 0 || i === days.length - 1);
  const three = (spread, i, format) => `${format(spread.p10[i])} – ${format(spread.p50[i])} – ${format(spread.p90[i])}`;
  return h("details", { class: "on-demand" }, h("summary", {}, "Straw and ground as figures"),
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": `Straw and ground through the winter, field ${field.id}` },
      h("table", {}, h("thead", {}, h("tr", {}, ["Morning", `Straw, ${model.units.mass}: low – middle – high year`, "Seedbed's pores full, %: the same", "Years under water, %"].map((t) => h("th", { scope: "col" }, t)))),
        h("tbody", {}, weeks.map((i) => h("tr", {}, h("th", { scope: "row" }, dateWords(isoOf(days[i]))),
          h("td", {}, three(winter.straw_kg_per_ha, i, mass)), h("td", {}, three(winter.pores_full, i, share)), h("td", {}, share(winter.under_water[i]))))))));
}

function key() {
  const sample = (drawing) => s("svg", { width: 40, height: 22, "aria-hidden": "true" }, drawing);
  return h("ul", { class: "key" },
    h("li", {}, sample(s("g", { class: "straw-band" }, s("rect", { class: "band", y: 3, width: 40, height: 16 }), s("path", { class: "middle-line", d: "M0 11H40" }))), "middle year, and the band of 8 years in 10"),
    h("li", {}, sample(s("rect", { class: "pond", y: 6, width: 40, height: 16, fill: "url(#held-water)" })), "bars: % of years under water"),
    h("li", {}, sample(s("path", { class: "limit", d: "M0 11H40" })), "wetter than this it cannot be worked"));
}

export function winterPicture(model, field) {
  if (field.winter === null) return null;
  const box = h("div", { class: "picture" });
  onWidth(box, (width) => box.replaceChildren(draw(model, field, width)));
  return h("div", { class: "winter" }, h("h4", {}, "Straw and ground through the winter"), h("p", {}, soilWords(model, field)), key(), box, table(model, field));
}
