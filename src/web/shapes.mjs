// Machine hours of every method on every field, by shape and levees beside typical field efficiency; the worst shapes named.

import { h } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { capital } from "./words.mjs";

const more = (field) => Math.round(100 * (field.hours_over_typical - 1));

function worstWords(model) {
  const drawn = model.plan.fields.filter((f) => !f.invented_shape && more(f) > 0).sort((a, b) => b.hours_over_typical - a.hours_over_typical).slice(0, 3);
  if (drawn.length === 0) return null;
  return h("p", {}, "Shapes that lose most: ", drawn.map((f, i) => [i ? ", " : "", fieldLink(model, f), ` (${more(f)} % more machine hours than is typical)`]), ".");
}

function cell(model, field, method) {
  const m = field.methods.find((x) => x.id === method.id);
  if (!m?.possible) return h("td", {}, "–");
  return h("td", { class: field.chosen.method === m.id ? "chosen" : "" },
    model.units.hours(m.machine_h), " ", h("small", {}, `(${model.units.hours(m.machine_h_typical)})`));
}

export function shapeHours(model) {
  const methods = model.plan.methods.filter((m) => model.plan.fields.some((f) => f.methods.find((x) => x.id === m.id)?.possible));
  return h("div", {}, h("h3", {}, "Shapes and hours"), worstWords(model),
    h("details", { class: "long" }, h("summary", {}, "Machine hours of every method on every field"),
      h("p", { class: "note" }, "By each field's outline and levees; in brackets the same work at typical field efficiency. Mean of the weather years, spring work included; the method in the plan is marked."),
      h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Machine hours of every method on every field" }, h("table", {},
        h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "Field"), methods.map((m) => h("th", { scope: "col" }, capital(m.name))))),
        h("tbody", {}, model.plan.fields.map((f) => h("tr", {}, h("th", { scope: "row" }, fieldLink(model, f)), methods.map((m) => cell(model, f, m)))))))));
}
