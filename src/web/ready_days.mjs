// The day on which the seedbed is ready in each year: a mark a year, stacked by week, against the planting date.

import { scaleLinear } from "d3-scale";
import { h, onWidth, s } from "./dom.mjs";
import { count, dateWords, dayNumber, isDay, monthName, readyWords } from "./words.mjs";

const row = 17, least = 26;  // px: height of a mark, width of a week

// Weeks that begin on the planting day and seven days before or after it, so that no week lies on both sides of it.
function weekOf(field, day) {
  const planting = dayNumber(field.planting_date);
  return day <= planting ? Math.ceil((day - planting) / 7) : Math.floor((day - planting - 1) / 7) + 1;
}

function sumWords(field) {
  const days = field.ready_days.filter((r) => isDay(r.ready));
  const inTime = days.filter((r) => r.ready <= field.planting_date).length;
  const late = days.length - inTime;
  const never = field.ready_days.length - days.length;
  return `Ready by ${dateWords(field.planting_date)} in ${inTime} of ${count(field.ready_days.length, "year", "years")}`
    + (late > 0 ? `, later in ${late}` : "") + (never > 0 ? `, not by ${dateWords(field.cut_off)} in ${never}` : "") + ".";
}

function columnsOf(field) {
  const columns = new Map();
  const never = [];
  for (const r of field.ready_days) {
    if (!isDay(r.ready)) never.push(r);
    else columns.set(weekOf(field, dayNumber(r.ready)), [...(columns.get(weekOf(field, dayNumber(r.ready))) ?? []), r]);
  }
  const weeks = [...columns.keys(), 0];
  return { columns, never, first: Math.min(...weeks), last: Math.max(...weeks, field.cut_off ? weekOf(field, dayNumber(field.cut_off)) : 0) };
}

function yearMark(r, x, y, width, kind) {
  return s("g", { class: `year-mark ${kind}` },
    s("rect", { x: x + 1, y: y + 1, width: width - 2, height: row - 2, rx: 2 }),
    kind === "never" && s("path", { d: `M${x + 3} ${y + 3}L${x + width - 3} ${y + row - 3}` }),
    s("text", { x: x + width / 2, y: y + row - 4.5, "text-anchor": "middle" }, String(r.year).slice(2)));
}

function draw(field, whole) {
  const { columns, never, first, last } = columnsOf(field);
  const weeks = last - first + 1;
  const width = Math.min(whole, 46 * (weeks + 2));
  const x = scaleLinear([first, last + 2.2], [1, width - 1]);
  const wide = Math.min(x(1) - x(0), 34);
  const tallest = Math.max(3, never.length, ...[...columns.values()].map((c) => c.length));
  const base = row * tallest + 22;
  const stack = (all, at, kind) => all.map((r, i) => yearMark(r, at, base - row * (i + 1), wide, kind));
  const planting = x(1);
  const starts = Array.from({ length: weeks }, (_, i) => first + i);
  const every = wide < least ? 2 : 1;
  return s("svg", { width, height: base + 34, role: "img", "aria-label": `${sumWords(field)} Every year stands in the list below.` },
    s("path", { class: "base", d: `M0 ${base}H${width}` }),
    [...columns].map(([week, all]) => stack(all, x(week), week <= 0 ? "in-time" : "late")),
    never.length > 0 && stack(never, x(last + 1.2), "never"),
    s("path", { class: "planting", d: `M${planting} 14V${base + 6}` }),
    s("text", { class: "axis", x: planting - 4, y: 11, "text-anchor": planting > width / 2 ? "end" : "start" }, `planting ${dateWords(field.planting_date)}`),
    starts.filter((w) => (w - first) % every === 0).map((w) => {
      return s("text", { class: "axis", x: x(w) + wide / 2, y: base + 15, "text-anchor": "middle" }, String(new Date(weekStart(field, w) * 86400000).getUTCDate()));
    }),
    starts.filter((w, i) => i === 0 || monthName(weekStart(field, w)) !== monthName(weekStart(field, w - 1))).map((w) =>
      s("text", { class: "axis", x: x(w) + 2, y: base + 30 }, monthName(weekStart(field, w)))),
    never.length > 0 && s("text", { class: "axis", x: Math.min(x(last + 1.2) + wide / 2, width - 24), y: base + 15, "text-anchor": "middle" }, "not by"),
    never.length > 0 && s("text", { class: "axis", x: Math.min(x(last + 1.2) + wide / 2, width - 24), y: base + 30, "text-anchor": "middle" }, dateWords(field.cut_off)));
}

const weekStart = (field, week) => dayNumber(field.planting_date) + 7 * (week - 1) + 1;

function list(field) {
  const days = [...field.ready_days].sort((a, b) => a.year - b.year);
  return h("details", { class: "on-demand" }, h("summary", {}, "Year by year"),
    h("ul", { class: "years" }, days.map((r) => h("li", {}, `${r.year}: ${readyWords(r.ready)}`))));
}

export function readyPicture(model, field) {
  if (field.ready_days.length === 0) return null;
  const box = h("div", { class: "picture" });
  onWidth(box, (width) => box.replaceChildren(draw(field, width)));
  return h("div", { class: "ready-days" }, h("h4", {}, "When the seedbed is ready, year by year"),
    h("p", {}, sumWords(field)),
    h("p", { class: "note" }, "Each mark is one weather year (its last two digits) in the week in which the seedbed is ready; weeks are counted from planting. Filled marks are in time, open ones late; a cross marks a year that is not ready by the last day."),
    box, list(field));
}
