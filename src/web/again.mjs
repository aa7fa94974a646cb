// A plan made again in the middle of a season: what moved against the one that stood, why, and what was left.

import { h, s, section } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { swatch } from "./methods.mjs";
import { capital, chanceWords, count, dateWords, dayNumber, fieldWord, listWords } from "./words.mjs";

function gainWords(model, move) {
  const sum = model.units.money(Math.abs(move.gain));
  if (!move.needed) return move.gain < 0 ? `costs ${sum} in the mean year` : `saves ${sum} in the mean year`;
  return `a field’s wanted chance needs it; it ${move.gain < 0 ? "costs" : "saves"} ${sum} in the mean year`;
}

const nameOf = (model, id) => (id === null ? "no method" : model.methodName(id));

function moveRow(model, move, why) {
  const { plan } = model;
  return h("li", {}, h("strong", {}, "Field ", fieldLink(model, model.fieldById(move.field)), ": "),
    h("span", { class: "from-to" }, swatch(plan, move.from), ` ${nameOf(model, move.from)} `, h("span", { "aria-hidden": "true" }, "→"), h("span", { class: "unseen" }, " becomes "), " ", swatch(plan, move.to), ` ${nameOf(model, move.to)}`), `: ${why}.`);
}

// Two bars on one scale: what is to come under the plan that stood, and under this one.
function costPicture(stood, now) {
  const most = Math.max(stood, now, 1), width = (v) => Math.max((220 * v) / most, 1);
  return s("svg", { width: 224, height: 34, "aria-hidden": "true", class: "again-bars" }, s("rect", { class: "stood", x: 2, y: 2, width: width(stood), height: 12 }), s("rect", { class: "now", x: 2, y: 20, width: width(now), height: 12 }));
}

function chanceMoves(model) {
  const rows = model.plan.again.stood_chances.map(({ field, stood }) => {
    const f = model.fieldById(field), now = model.outcomeOf(f)?.chance_ready;
    return { f, stood, now };
  }).filter((r) => r.now !== undefined && chanceWords(r.now) !== chanceWords(r.stood));
  if (rows.length === 0) return h("p", {}, "No field’s chance of a seedbed in time changes by a year in ten.");
  return h("ul", {}, rows.map((r) => h("li", {}, "Field ", fieldLink(model, r.f), `: ready in time in ${chanceWords(r.now)} instead of ${chanceWords(r.stood)}.`)));
}

const toldFrom = 3; // days, docs/season.md

// Which way a typical day moves: 1 later or to none, -1 earlier, 0 by less than is told.
function wayOf({ stood, now }) {
  if (stood === null || now === null) return (stood === null ? 0 : 1) - (now === null ? 0 : 1);
  const days = dayNumber(now) - dayNumber(stood);
  return Math.abs(days) < toldFrom ? 0 : Math.sign(days);
}

function dayWords(name, { stood, now }) {
  const day = (iso) => (iso === null ? "not in most years" : dateWords(iso));
  if (stood === null && now === null) return false;
  return stood === now ? `${name} ${day(now)} as before` : [`${name} `, h("strong", {}, day(now)), ` instead of ${day(stood)}`];
}

// Why, where it is known: another place in the order, or fields whose work with the same machine went before.
function whyMoved(model, move) {
  const later = (wayOf(move.first) || wayOf(move.ready)) > 0, { before, order } = move;
  const one = before.length === 1;
  return [order !== null && `it comes ${later ? "later" : "earlier"} in the order of ${order}`,
    before.length > 0 && `${fieldWord(before)} ${listWords(before)} ${later ? (one ? "now goes" : "now go") : (one ? "no longer goes" : "no longer go")} before it`].filter(Boolean).join("; ");
}

function dayMoves(model) {
  const { days } = model.plan.again;
  if (days.length === 0) return h("p", {}, `On fields that keep their method, no typical day moves by ${toldFrom} days or more.`);
  return h("ul", { class: "day-moves" }, days.map((move) => {
    const parts = [dayWords("next work", move.first), dayWords("ready", move.ready)].filter(Boolean), why = whyMoved(model, move);
    return h("li", {}, h("strong", {}, "Field ", fieldLink(model, model.fieldById(move.field)), ": "), parts.map((p, i) => [i > 0 && ", ", p]), why ? `: ${why}.` : ".");
  }));
}

// Null where no plan stood.
export function againSection(model) {
  const { again, objective } = model.plan;
  if (!again) return null;
  const { units } = model, { days } = again;
  const made = again.moves.filter((m) => m.made), left = again.moves.filter((m) => !m.made && Math.round(m.gain) > 0);
  const orders = [["autumn", again.autumn_order], ["spring", again.spring_order]].filter(([, o]) => o.made);
  const moved = [
    ...again.barred.map((m) => moveRow(model, m, "the season so far leaves no other way")), ...made.map((m) => moveRow(model, m, gainWords(model, m))),
    ...orders.map(([name, o]) => h("li", {}, h("strong", {}, `The order of fields in ${name}`), `: ${gainWords(model, o)}.`)),
  ];
  const less = again.stood - objective.plan;
  return section("again-words", "Against the plan that stood", null, h("div", { class: "answers" },
    h("div", { class: "answer" }, h("h3", {}, "What moved"), moved.length > 0 ? h("ul", { class: "moves" }, moved) : h("p", {}, days.length > 0 ? "No method and no order of fields moves." : "Nothing moves: the plan that stood is gone on with."),
      left.length > 0 && h("p", {}, `Left as they were, a change would gain less than ${units.moneyPerArea(again.asked_per_ha)}: `, left.map((m, i) => [i > 0 && ", ", fieldLink(model, model.fieldById(m.field)), ` (${nameOf(model, m.to)}, ${units.money(Math.abs(m.gain))})`]), ".")),
    h("div", { class: "answer" }, h("h3", {}, "Same method, other days"), dayMoves(model),
      days.length > 0 && h("p", { class: "note" }, `First day of the next work and day of a ready seedbed in the typical year, where one of them moves by ${toldFrom} days or more.`)),
    h("div", { class: "answer" }, h("h3", {}, "What is still to come"), costPicture(again.stood, objective.plan),
      h("p", {}, `Upper bar: ${units.money(again.stood)} if the plan that stood were kept. Lower bar: ${units.money(objective.plan)} under this one${Math.round(less) === 0 ? ", the same" : `, ${units.money(Math.abs(less))} ${less > 0 ? "less" : "more"}`}, out of pocket, as a mean of the weather years.`),
      h("h3", {}, "How sure"), chanceMoves(model), again.barred.length > 0 && h("p", { class: "note" }, `${capital(count(again.barred.length, "method", "methods"))} of the plan that stood can no longer be done.`))));
}
