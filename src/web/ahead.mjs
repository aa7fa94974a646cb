// The days ahead at a server: what needs a decision, what a storm asks for, what changed, and each field's
// chance of a ready seedbed as it has stood on every morning that was looked at.

import { isOver, issueList, onItsWay, putQuestion } from "./answer.mjs";
import { ask } from "./ask.mjs";
import { h, redraw, s, section } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { capital, chanceWords, count, dateWords, dayNumber, rangeWords } from "./words.mjs";

const shownAtFirst = 8;  // changes, before the others are asked for

const linked = (model, id) => fieldLink(model, model.fieldById(id));
const linkedList = (model, ids) => ids.map((id, i) => [i > 0 && ", ", linked(model, id)]);

function callWords(model, { what, field }, looks) {
  const { method, chance, wanted, last_safe_start: last } = looks.get(field);
  const way = method === "" ? "" : model.methodName(method);
  switch (what) {
    case "below_wanted": return `ready by planting in ${chanceWords(chance)}, and ${chanceWords(wanted)} is wanted.`;
    case "start_soon": return `begin “${way}” by ${dateWords(last)}, the last day that keeps the chance that is wanted.`;
    case "start_passed": return `the last safe day to begin “${way}” was ${dateWords(last)}.`;
    default: return "no method is left that can be done.";
  }
}

function callPart(model, ahead) {
  if (ahead.calls.length === 0) return h("p", {}, "Nothing needs a decision today.");
  const looks = new Map(ahead.fields.map((f) => [f.field, f]));
  return [h("h3", {}, "Needs a decision"), h("ul", { class: "calls" }, ahead.calls.map((c) => h("li", {}, h("strong", {}, "Field ", linked(model, c.field)), ": ", callWords(model, c, looks))))];
}

function rainWords(model, mm) {
  return model.plan.farm.units === "us" ? `${model.units.number(mm / 25.4, 1)} in` : `${model.units.number(mm, 0)} mm`;
}

function rushTable(model, rush) {
  const { units } = model;
  return h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Work worth rushing" }, h("table", { class: "rush" },
    h("thead", {}, h("tr", {}, ["Field", "Work", "Hours", "Saves an hour"].map((t) => h("th", { scope: "col" }, t)))),
    h("tbody", {}, rush.map((r) => h("tr", {}, h("th", { scope: "row" }, linked(model, r.field)), h("td", {}, capital(model.operationName(r.operation))),
      h("td", { class: "number" }, units.number(r.hours, 1)), h("td", { class: "number" }, units.money(r.avoided_per_hour)))))));
}

function stormPart(model, storm) {
  if (storm === null) return null;
  const also = [
    storm.boards.length > 0 && ["Open the boards, the next work wants dry ground: ", linkedList(model, storm.boards), "."],
    storm.bales.length > 0 && ["Take the bales off: ", linkedList(model, storm.bales), "."],
    storm.soft_ways.length > 0 && ["Wagons to a hard road, the way out will be soft: ", linkedList(model, storm.soft_ways), "."],
  ].filter(Boolean);
  return h("div", { class: "storm" }, h("h3", {}, `A storm is forecast: ${rainWords(model, storm.rain_mm)}, ${rangeWords(storm.first, storm.last)}`),
    storm.rush.length > 0 ? rushTable(model, storm.rush) : h("p", {}, "No field gains by being rushed."),
    also.length > 0 && h("ul", {}, also.map((line) => h("li", {}, line))),
    h("p", { class: "note" }, "Lightning, wind and soft banks: nobody hurries on a levee or under a line."));
}

function changeRow(model, { before, now }) {
  const said = [
    before.method !== now.method && `${model.methodName(now.method)} instead of ${model.methodName(before.method)}`,
    now.ready !== null && before.ready === null && `ready since ${dateWords(now.ready)}`,
    chanceWords(before.chance) !== chanceWords(now.chance) && `ready by planting in ${chanceWords(now.chance)}, was ${chanceWords(before.chance)}`,
    now.begun && !before.begun && "work has begun",
  ].filter(Boolean);
  return said.length === 0 ? null : h("li", {}, h("strong", {}, "Field ", linked(model, now.field)), `: ${said.join("; ")}.`);
}

function changePart(model, ahead, looks) {
  const last = looks.filter((l) => l.day < ahead.day).at(-1);
  if (!last) return null;
  const rows = ahead.changes.map((c) => changeRow(model, c)).filter(Boolean);
  if (rows.length === 0) return h("p", { class: "note" }, `Nothing has changed since ${dateWords(last.day)}.`);
  return h("details", { open: rows.length <= shownAtFirst }, h("summary", {}, `Changed since ${dateWords(last.day)}: ${count(rows.length, "field", "fields")}`), h("ul", {}, rows));
}

// A step for each look; dashed: the chance wanted; open points: below it.
function lineOf(points, first, last) {
  const width = 150, high = 54, x = (iso) => 4 + ((width - 8) * (dayNumber(iso) - first)) / Math.max(last - first, 1), y = (chance) => 5 + (high - 10) * (1 - chance);
  const path = points.map((p, i) => (i === 0 ? `M${x(p.day)} ${y(p.chance)}` : `H${x(p.day)}V${y(p.chance)}`)).join("");
  return s("svg", { width, height: high, "aria-hidden": "true", class: "look-line" }, s("path", { class: "base", d: `M4 ${y(0)}H${width - 4}M4 ${y(1)}H${width - 4}` }), s("path", { class: "wanted", d: `M4 ${y(points.at(-1).wanted)}H${width - 4}` }),
    s("path", { class: "step", d: path }), points.map((p) => s("circle", { class: p.chance < p.wanted - 1e-9 ? "short" : "sure", cx: x(p.day), cy: y(p.chance), r: 2.6 })));
}

function fieldLine(model, id, looks, first, last) {
  const points = looks.flatMap((l) => l.fields.filter((f) => f.field === id).map((f) => ({ ...f, day: l.day })));
  const now = points.at(-1), was = points[0];
  return h("li", {}, h("span", {}, h("strong", {}, linked(model, id)), h("span", { class: "block" }, `${now.ready ? `ready since ${dateWords(now.ready)}` : chanceWords(now.chance)}`)), lineOf(points, first, last),
    h("span", { class: "unseen" }, chanceWords(was.chance) === chanceWords(now.chance) ? "as on the first look" : `on the first look: ${chanceWords(was.chance)}`));
}

function linesPart(model, looks) {
  if (looks.length === 0) return null;
  const first = looks[0].day, last = looks.at(-1).day;
  const ids = looks.at(-1).fields.map((f) => f.field).filter((id) => model.fieldById(id));
  return h("div", {}, h("h3", {}, "Chance of a ready seedbed by planting"),
    h("p", { class: "note" }, looks.length === 1 ? `Looked at once, on ${dateWords(last, true)}. Each further look adds a point.` : `${count(looks.length, "look", "looks")} from ${dateWords(first, true)} to ${dateWords(last, true)}. Upper edge: every year; lower: no year. Dashed: the chance wanted. Open points: below it.`),
    h("ul", { class: "look-lines" }, ids.map((id) => fieldLine(model, id, looks, dayNumber(first), dayNumber(last)))));
}

class Ahead {
  constructor(model, told, state) {
    this.model = model;
    this.told = told;
    this.job = state.job?.kind === "ahead" ? state.job : null;
    this.way = h("div", { "aria-live": "polite" });
    this.box = h("div", {});
    this.draw();
    this.drawWay();
  }

  draw() {
    const { model, told: { ahead, looks } } = this;
    redraw(this.box, ...[
      ahead && h("p", {}, `As of the morning of ${dateWords(ahead.day, true)}, under the plan that stands.`), ahead && callPart(model, ahead),
      ahead && stormPart(model, ahead.storm), ahead && changePart(model, ahead, looks), linesPart(model, looks)].flat().filter(Boolean));
  }

  drawWay() {
    const { job } = this, parts = [];
    if (job === null || isOver(job)) parts.push(h("p", {}, h("button", { type: "button", class: "pick", onclick: () => this.look() }, "Look ahead from this morning")));
    else parts.push(h("p", { role: "status" }, job.stage === "answering" ? "Every weather year is played on from this morning." : "Reading the farm, its journal and the forecast."),
      onItsWay(job, "answering", "How far looking ahead is", ask.giveUp));
    if (job?.stage === "given_up") parts.push(h("p", {}, "Stopped. Nothing was kept of it."));
    if (job?.stage === "refused" || job?.stage === "failed") parts.push(issueList({ message: job.fault || "The days ahead cannot be looked at.", issues: job.issues }));
    if (this.trouble) parts.push(issueList(this.trouble));
    redraw(this.way, ...parts);
  }

  async look() {
    await putQuestion(this, ask.lookAhead);
    this.drawWay();
  }

  happened(data) {
    if (!data.id.startsWith("ahead-") || (this.job && !isOver(this.job) && data.id !== this.job.id)) return;
    this.job = { ...(this.job?.id === data.id ? this.job : { issues: [] }), ...data };
    if (this.job.stage === "planned" && this.job.answer) {
      this.told = this.job.answer;
      this.draw();
    }
    this.drawWay();
  }
}

// {part, happened}, or a part that says why the looks cannot be read.
export async function aheadPart(model, state) {
  const lead = "The plan that stands, gone on with from a morning by what was written down and what is forecast.";
  try {
    const ahead = new Ahead(model, await ask.ahead(), state);
    return { part: section("ahead", "Days ahead", lead, ahead.way, ahead.box), happened: (data) => ahead.happened(data) };
  } catch (error) {
    return { part: section("ahead", "Days ahead", null, issueList(error)), happened: () => {} };
  }
}
