// The work of the shown year, day by day, for one person or for all.

import { h, section } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { capital, dateWords, weekdayWords } from "./words.mjs";

function row(model, byId, r) {
  return h("tr", {}, h("td", { "data-label": "Field" }, fieldLink(model, byId.get(r.field))),
    h("td", { "data-label": "Job" }, r.stands_by ? `Stand by, no call: ${model.operationName(r.operation)}` : capital(model.operationName(r.operation)), r.fell_back && " (fall-back)"),
    h("td", { "data-label": "Who" }, r.operators.map(model.nameOf).join(", ") || "–"),
    h("td", { "data-label": "With" }, [r.tractor, r.machine].filter((id) => id !== null).map(model.nameOf).join(" + ") || (r.stands_by ? "–" : "by hand")),
    h("td", { "data-label": "Time" }, `${r.start.slice(11)} – ${r.end.slice(11)}`),
    h("td", { "data-label": "Area" }, r.stands_by ? "–" : model.units.areaWords(r.area_ha)));
}

function table(model, who) {
  const byId = new Map(model.plan.fields.map((f) => [f.id, f]));
  const rows = model.plan.schedule.filter((r) => who === "" || r.operators.includes(who));
  const days = [...new Set(rows.map((r) => r.start.slice(0, 10)))];
  return h("table", { class: "work" },
    h("thead", {}, h("tr", {}, ["Field", "Job", "Who", "With", "Time", "Area"].map((t) => h("th", { scope: "col" }, t)))),
    days.map((day) => h("tbody", {}, h("tr", { class: "group" }, h("th", { scope: "rowgroup", colspan: 6 }, `${weekdayWords(day)} ${dateWords(day, true)}`)),
      rows.filter((r) => r.start.startsWith(day)).map((r) => row(model, byId, r)))));
}

export function workSection(model) {
  const box = h("div", { class: "work-box" });
  const put = (who) => box.replaceChildren(table(model, who));
  const people = model.plan.operators.filter((o) => model.plan.schedule.some((r) => r.operators.includes(o.id)));
  const choice = h("select", { id: "work-who", onchange: (event) => put(event.target.value) },
    h("option", { value: "" }, "Everyone"), people.map((o) => h("option", { value: o.id }, o.name || o.id)));
  put("");
  return section("work", "Work list", `Day by day, as it would fall in the weather of ${model.plan.schedule_year}. The same list is in work.csv.`,
    h("p", { class: "control" }, h("label", { for: "work-who" }, "For: "), choice),
    h("details", { class: "long" }, h("summary", {}, "Show the list"), box));
}
