// How to set the combine: one line for each field that still stands.

import { h, section } from "./dom.mjs";
import { fieldLink } from "./head.mjs";
import { capital, chanceWords, dateWords } from "./words.mjs";

const lays = { windrow: "in a windrow", spread: "spread", chopped: "chopped and spread" };

function row(model, field) {
  const c = field.chosen;
  return h("tr", {}, h("td", { "data-label": "Field" }, fieldLink(model, field)),
    h("td", { "data-label": "Cut about" }, dateWords(field.harvest, true)),
    h("td", { "data-label": "Straw" }, lays[c.lay]),
    h("td", { "data-label": "Chopper" }, c.chopper ? "on" : "off"),
    h("td", { "data-label": "Cut at" }, model.units.lengthWords(c.cut_height_cm)),
    h("td", { "data-label": "For" }, c.method === null ? "no method is open" : capital(model.methodName(c.method))),
    h("td", { "data-label": "Ruts" }, field.rut_chance > 0 ? `in ${chanceWords(field.rut_chance)}` : "none expected"));
}

export function combineSection(model) {
  const standing = model.plan.fields.filter((f) => !f.cut).sort((a, b) => (a.harvest < b.harvest ? -1 : 1));
  if (standing.length === 0) return null;
  return section("combine", "Combine card", "How to set the combine on the fields that still stand. Wet ground on the day of the cut leaves ruts: then the straw is neither baled nor burned there, and spring asks for more passes.",
    h("table", { class: "work" },
      h("thead", {}, h("tr", {}, ["Field", "Cut about", "Straw", "Chopper", "Cut at", "For", "Ruts"].map((t) => h("th", { scope: "col" }, t)))),
      h("tbody", {}, standing.map((f) => row(model, f)))));
}
