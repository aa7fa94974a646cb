// Hours of each machine and person, week by week: used against what there is.

import { shapeHours } from "./shapes.mjs";
import { scaleLinear } from "d3-scale";
import { h, onWidth, s, section } from "./dom.mjs";
import { dateWords, dayNumber, monthName } from "./words.mjs";

const kinds = { operator: "People", tractor: "Tractors", implement: "Machines" };

function tightest(resource) {
  const worked = resource.weeks.filter((w) => w.used_h > 0 && w.available_h > 0);
  return worked.reduce((best, w) => (best === null || w.used_h / w.available_h > best.used_h / best.available_h ? w : best), null);
}

function words(model, resource) {
  const total = resource.weeks.reduce((sum, w) => sum + w.used_h, 0);
  const tight = tightest(resource);
  if (!tight) return "not used";
  const share = Math.round((100 * tight.used_h) / tight.available_h);
  return `${model.units.hours(total)} h in the season; busiest in the week of ${dateWords(tight.start)}: ${model.units.hours(tight.used_h)} of ${model.units.hours(tight.available_h)} h (${share} %)`;
}

function draw(model, resource, width) {
  const height = 64;
  const x = scaleLinear([model.firstDay, model.lastDay + 1], [0, width]);
  const top = Math.max(1, ...resource.weeks.map((w) => Math.max(w.used_h, w.available_h)));
  const y = scaleLinear([0, top], [height, 4]);
  const bars = resource.weeks.map((w) => {
    const left = x(dayNumber(w.start)) + 0.5;
    const wide = Math.max(x(dayNumber(w.start) + 7) - left - 1, 1);
    const tight = w.used_h > 0.9 * w.available_h && w.used_h > 0;
    return [s("rect", { class: "available", x: left, width: wide, y: y(w.available_h), height: height - y(w.available_h) }),
      s("rect", { class: tight ? "used tight" : "used", x: left, width: wide, y: y(w.used_h), height: height - y(w.used_h) }),
      tight && s("text", { class: "tight-sign", x: left + wide / 2, y: Math.max(y(w.used_h) - 2, 9), "text-anchor": "middle" }, "!")];
  });
  const months = resource.weeks.map((w) => dayNumber(w.start)).filter((day, i, all) => i > 0 && monthName(day) !== monthName(all[i - 1]));
  return s("svg", { width, height: height + 18, role: "img", "aria-label": `${model.nameOf(resource.id)}: ${words(model, resource)}` },
    bars, s("path", { class: "base", d: `M0 ${height}H${width}` }),
    months.filter((_, i) => i % (width < 420 ? 2 : 1) === 0).map((day) => s("text", { class: "axis", x: x(day), y: height + 15 }, monthName(day))));
}

function one(model, resource) {
  const box = h("div", { class: "hours-drawing" });
  onWidth(box, (width) => box.replaceChildren(draw(model, resource, width)));
  return h("li", { class: "resource" }, h("h4", {}, model.nameOf(resource.id)), h("p", { class: "dim" }, words(model, resource)), box);
}

function sample(kind, sign) {
  return s("svg", { width: 26, height: 20, "aria-hidden": "true" }, s("rect", { class: kind, x: 4, y: 4, width: 18, height: 16 }),
    sign && s("text", { class: "tight-sign", x: 13, y: 12, "text-anchor": "middle" }, sign));
}

export function hoursSection(model) {
  const used = model.plan.resources.filter((r) => r.weeks.some((w) => w.used_h > 0));
  const idle = model.plan.resources.filter((r) => !used.includes(r));
  return section("hours", "Hours, week by week", "Mean of the weather years. The hours there are count every day on which the machine is here or the person works, fit ground or not.",
    h("ul", { class: "key" }, h("li", {}, sample("available"), "hours there are"), h("li", {}, sample("used"), "hours used"),
      h("li", {}, sample("used tight", "!"), "nine tenths or more are used: the pinch")),
    Object.entries(kinds).map(([kind, title]) => {
      const rows = used.filter((r) => r.kind === kind);
      return rows.length > 0 && [h("h3", {}, title), h("ul", { class: "resources" }, rows.map((r) => one(model, r)))];
    }),
    shapeHours(model),
    idle.length > 0 && h("p", { class: "note" }, `Not used: ${idle.map((r) => model.nameOf(r.id)).join(", ")}.`));
}
