// How sure each field is against what was asked for, and what stands in the way of the others.

import { h, section } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { askedChanceWords } from "./words.mjs";

function lateWords(model) {
  const { target } = model.plan;
  if (target.late_price === null) return "A late day costs nothing in this plan; ground that stays unplanted does.";
  return `A late day costs ${model.units.moneyPerArea(target.late_price)}, on average.`;
}

function askedWords(model) {
  const { target } = model.plan;
  if (target.risk === "price") return `What you asked for is only shown here: late days and unplanted ground cost money, and the plan weighs that money alone. ${lateWords(model)}`;
  return `Each field is to be ready as often as you asked for. That comes before money: of two plans, the one that falls less short of it is taken, even if it costs more. ${lateWords(model)}`;
}

function mark(met) {
  return h("span", { class: met ? "met" : "sign" }, met ? " ✓" : " !");
}

function wishRow(model, wish) {
  const { target } = model.plan;
  return h("tr", { "data-field": wish.field }, h("th", { scope: "row" }, fieldLink(model, model.fieldById(wish.field))),
    h("td", {}, askedChanceWords(wish.wanted_chance)),
    h("td", {}, `${wish.ready_searched} of ${target.search_years}`, mark(wish.met_searched)),
    h("td", {}, `${wish.ready_shown} of ${target.shown_years}`, mark(wish.met_shown)));
}

export function riskSection(model) {
  const { target } = model.plan;
  if (target.fields.length === 0) return null;
  const short = target.fields.some((w) => !w.met_searched || !w.met_shown);
  return section("sure", "How sure is it?", askedWords(model),
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "How often each field is ready, against what you asked for" },
      h("table", { class: "cash" },
        h("thead", {}, h("tr", {}, ["Field", "Asked for", "Ready, years searched", "Ready, other years"].map((t) => h("th", { scope: "col" }, t)))),
        h("tbody", {}, target.fields.map((w) => wishRow(model, w))))),
    h("p", { class: "note" }, `The plan was chosen on the years searched${target.risk === "price" ? "" : " and keeps there to what you asked for, as far as it can"}; the other years, which it never saw, say how sure it is.`, short && [" ", h("span", { class: "sign" }, "!"), " less often than you asked for."]),
    target.in_the_way.length > 0 && [h("h3", {}, "What stands in the way"),
      h("ul", { class: "in-the-way" }, target.in_the_way.map((way) => h("li", { "data-field": way.field },
        h("strong", {}, fieldLink(model, model.fieldById(way.field))), ` ${way.words.join(". ")}.`)))]);
}
