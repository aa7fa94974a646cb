// Cautions, the authority's rows on burning, and what the numbers are.

import { h, section } from "./dom.mjs";
import { askedChanceWords, capital, chanceWords, count, dateWords, fieldWord } from "./words.mjs";

export function cautionSection(model) {
  const { plan } = model;
  return section("cautions", "Take care", plan.cautions.length > 0 ? null : "No cautions were raised.",
    h("ul", { class: "cautions" }, plan.cautions.map((c) => h("li", {}, h("strong", {}, `${capital(c.about)}. `), c.text, " ",
      h("small", {}, `Source: ${c.source}.${fieldsWords(plan, c.fields)}`)))),
    h("p", { class: "note" }, "Local authorities, the fire service and licensed practice come before anything on this page."),
    burnRows(plan.burning));
}

function fieldsWords(plan, ids) {
  if (ids.length === 0) return "";
  return ids.length === plan.fields.length && ids.length > 1 ? " All fields." : ` ${capital(fieldWord(ids))} ${ids.join(", ")}.`;
}

function burnRows(burning) {
  if (burning === null) return h("p", {}, "Burning: unknown. No rules of an authority were given.");
  return h("details", {}, h("summary", {}, `Rows on burning, ${burning.jurisdiction}`),
    h("p", {}, `Ask ${burning.authority}. The plan draws burn days by chance: ${Math.round(100 * burning.burn_day_chance)} in 100 days inside the season windows.`),
    h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Rows on burning" }, h("table", {},
      h("thead", {}, h("tr", {}, ["Row", "Says", "Weight", "As of", "Checked by you", "Source"].map((t) => h("th", { scope: "col" }, t)))),
      h("tbody", {}, burning.rules.map((r) => h("tr", {}, h("th", { scope: "row" }, `${r.name.replace(/_/g, " ")}${r.of ? `, ${r.of}` : ""}`),
        h("td", {}, `“${[r.comparison, r.value, r.unit].filter(Boolean).join(" ")}”`), h("td", {}, r.weight), h("td", {}, r.as_of ? dateWords(r.as_of, true) : "no date"),
        h("td", {}, r.checked ? "yes" : "no"), h("td", {}, `“${r.source}”`)))))));
}

function yearWords(years) {
  return years.length === 0 ? "none" : years.join(", ");
}

function weatherWords(plan) {
  const w = plan.weather;
  const parts = [[w.estimated.temperature_days, "temperature"], [w.estimated.rain_days, "rain"], [w.estimated.humidity_days, "humidity"], [w.estimated.wind_days, "wind"], [w.estimated.radiation_days, "sunshine"]]
    .filter(([n]) => n > 0).map(([n, what]) => `${what} on ${count(n, "day", "days")}`);
  return parts.length === 0 ? "Every weather value was in the record." : `Weather values that were missing and filled by rule: ${parts.join(", ")}.`;
}

function boundWords(model) {
  const o = model.plan.objective;
  if (o.bound === null) return "How much a better plan could still save was not worked out.";
  return `No plan can cost less than ${model.units.money(o.bound)}; this one costs ${model.units.money(o.plan)}: a difference of ${model.units.money(o.gap)} (${Math.round(o.gap_percent)} %). The lower figure is that of a planner who could see the weather ahead, so a part of the difference can never be saved.`;
}

function auditPart(audit) {
  if (audit.ok) return h("p", {}, `A second, separate program worked every year out again and compared ${audit.checks.toLocaleString("en-US")} figures. It found nothing wrong.`);
  return h("div", {}, h("p", {}, h("strong", {}, `A second, separate program found ${count(audit.count, "fault", "faults")} in this plan:`)),
    h("ul", {}, audit.violations.slice(0, 20).map((v) => h("li", {}, `${v.rule}: ${v.where}: found ${v.found}, expected ${v.expected}`))));
}

export function backSection(model) {
  const { plan } = model;
  const w = plan.weather;
  const shown = w.chances_in_sample
    ? "There are too few years to keep some apart: the years behind the chances also chose the plan, so the chances look better than they are."
    : "The years behind the chances were not used to choose the plan.";
  return section("numbers", "Behind the numbers", null,
    h("ul", { class: "numbers" },
      h("li", {}, `Money and hours are means over ${count(w.years.length, "weather year", "weather years")}. Chances and ready days come from ${count(w.shown_years.length, "year", "years")}; “years in 10” are rounded down. ${shown}`),
      h("li", {}, weatherWords(plan)),
      h("li", {}, `You asked for ${askedChanceWords(plan.target.wanted_chance)} that each field is ready by its planting date${plan.target.risk === "price" ? "; the plan does not keep to it, it weighs money alone" : ""}.`),
      h("li", {}, `${plan.farm.price_year > 0 ? `Prices are those of ${plan.farm.price_year}. ` : ""}Straw is weighed oven-dry. The search judged ${plan.evaluations.toLocaleString("en-US")} changes of method or order.`),
      h("li", {}, boundWords(model))),
    auditPart(plan.audit),
    plan.farm.notes.length > 0 && [h("h3", {}, "What the reader mended, found or guessed"), h("ul", {}, plan.farm.notes.map((n) => h("li", {}, n)))],
    h("details", {}, h("summary", {}, "Years and files"),
      h("p", {}, `Weather years: ${yearWords(w.years)}.`), h("p", {}, `Behind the chances: ${yearWords(w.shown_years)}.`),
      h("ul", { class: "inputs" }, plan.inputs.map((i) => h("li", {}, i.path, " ", h("code", {}, i.sha256)))),
      h("p", {}, `aftercut ${plan.version}, seed ${plan.seed}. Map drawn with Leaflet (BSD 2-Clause licence), scales with d3 (ISC licence).`)));
}
