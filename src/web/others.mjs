// What if the others do not come, and what has to be done by when.

import { h, section } from "./dom.mjs";
import { capital, dateWords, dayNumber, fieldLabel, fieldWord, weekWords } from "./words.mjs";

// Fields by their numbers alone: the lists are long.
function links(model, ids) {
  return ids.map((id, i) => [i ? ", " : "", h("a", { href: `#${model.sheetId(model.fieldById(id))}`, title: fieldLabel(model.fieldById(id)) }, id)]);
}

function shareWords(model, chance) {
  const years = model.plan.weather.shown_years.length;
  return `${Math.round(chance * years)} of ${years} years`;
}

// What each field of a test then does, fields with the same put together.
function insteadRows(model, test) {
  const groups = new Map();
  for (const id of test.fields) {
    const chosen = model.fieldById(id).chosen;
    const all = [chosen.fallback, ...chosen.more_fallbacks].filter((f) => f && test.kinds.includes(f.kind));
    for (const f of all) groups.set(f.instead, [...(groups.get(f.instead) ?? []), id]);
  }
  return [...groups].map(([instead, ids]) => h("li", {}, h("strong", {}, capital(instead)), ": ", links(model, [...new Set(ids)])));
}

function startWords(test) {
  const sign = test.late && h("span", { class: "sign" }, " !");
  if (test.start_by === null) return h("p", {}, h("strong", {}, "Too late, even at once"), sign);
  return h("p", {}, "Start the fall-backs by the ", h("strong", {}, weekWords(test.start_by)), sign);
}

function ruleWords(model, test) {
  if (test.start_by === null) return `From ${dateWords(test.played_from)} on they are done in time in ${shareWords(model, test.chance)}.`;
  if (test.method_start_by === null) return `Done in time in ${shareWords(model, test.chance)}.`;
  const later = test.late ? `The methods themselves wait until ${dateWords(test.method_start_by)}: in time in ${shareWords(model, test.chance_by_method_start)} only. Go by the week, not by the method.`
    : `The methods themselves go over on ${dateWords(test.method_start_by)} at the latest.`;
  return `Done in time in ${shareWords(model, test.chance)}. ${later}`;
}

function testRow(model, test) {
  const together = test.kinds.length > 1;
  return h("li", { class: test.late ? "turn late" : "turn" },
    h("h3", {}, together ? "If none of it comes at all" : `If ${test.trigger}`),
    startWords(test),
    together ? h("p", {}, "Fields ", links(model, test.fields), ".") : h("ul", {}, insteadRows(model, test)),
    h("p", { class: "note" }, ruleWords(model, test),
      ` Reckoned with a storm of ${rainWords(model, test.storm)} on the day on which they start; every seedbed of them is then ready by planting in ${shareWords(model, test.chance_ready)}.`));
}

function rainWords(model, storm) {
  const us = model.plan.farm.units === "us";
  const depth = us ? `${model.units.number(storm.rain_mm / 25.4, 1)} inches` : `${model.units.number(storm.rain_mm, 0)} mm`;
  return `${depth} in ${storm.days} ${storm.days === 1 ? "day" : "days"}`;
}

export function othersSection(model) {
  const tests = model.plan.fall_backs;
  if (tests.length === 0) return null;
  return section("others", "If the others do not come",
    "Some methods hang on a call, a hired outfit, dry days or water. Here is what each such field does without, and by when all of them have to start so that machines, people and days still do.",
    h("ul", { class: "turns-list" }, tests.map((t) => testRow(model, t))),
    tests.some((t) => t.late) && h("p", { class: "note" }, h("span", { class: "sign" }, "! "), "the methods wait too long, or no day is early enough."));
}

function whenWords(model, d) {
  if (d.by <= model.plan.farm.as_of) return "Now";
  return d.worked_out ? capital(weekWords(d.by)) : dateWords(d.by, true);
}

function dateRow(model, d) {
  return h("tr", {}, h("th", { scope: "row", class: "when" }, whenWords(model, d)),
    h("td", {}, h("strong", {}, capital(d.what)), h("small", { class: "block" }, `${capital(d.why)}.${d.source ? ` From: ${d.source.replace(/_/g, " ")}.` : ""}`)),
    h("td", { "data-label": capital(fieldWord(d.fields)) }, d.fields.length === model.plan.fields.length ? "all fields" : links(model, d.fields)));
}

export function datesSection(model) {
  const rows = model.plan.dates_to_keep;
  if (rows.length === 0) return null;
  const today = dayNumber(model.plan.farm.as_of);
  const soon = rows.filter((d) => dayNumber(d.by) < today + 60);
  const later = rows.filter((d) => !soon.includes(d));
  const table = (list, label) => h("table", { class: "dates", "aria-label": label },
    h("thead", {}, h("tr", {}, ["By", "What", "Fields"].map((t) => h("th", { scope: "col" }, t)))),
    h("tbody", {}, list.map((d) => dateRow(model, d))));
  return section("dates", "Dates to keep", "What has to be signed, sampled, ordered or done by when. Days that the plan worked out from the weather years are given as weeks.",
    soon.length > 0 && table(soon, "Dates of the next two months"),
    later.length > 0 && h("details", { class: "long" }, h("summary", {}, later.length === 1 ? "1 later one" : `${later.length} later ones`), h("div", { class: "date-box" }, table(later, "Later dates"))));
}
