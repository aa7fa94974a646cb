// Air, next crop and birds: rows of a field's method table, with the ranges of their sources.

import { h } from "./dom.mjs";

// "1,234 (800 – 1,900)"; a dash where there is nothing.
function range(figure, format) {
  return figure.high === 0 ? "–" : `${format(figure.mean)} (${format(figure.low)} – ${format(figure.high)})`;
}

export function moneyRange(model, figure) {
  const { units } = model;
  return figure === null ? "–" : range(figure, (x) => units.number(x / units.perHa, 0));
}

// Small amounts keep their digits.
function fine(units) {
  return (kgPerHa) => {
    const x = kgPerHa * units.perMass;
    return units.number(x, x >= 100 ? 0 : x >= 1 ? 1 : 2);
  };
}

// What the ledger of nitrogen comes to by planting, as a sentence.
export function nitrogenWords(model, outcome) {
  const { units } = model;
  const n = outcome.environment.nitrogen_kg_per_ha;
  const amount = (figure) => units.number(figure.mean * units.perMass, 0);
  return `Rotting straw ties up ${amount(n.taken_up)} ${units.mass} of the soil's nitrogen and gives back ${amount(n.given_back)} by planting; ${amount(n.held)} it still holds for later.`;
}

export function nextCropRows(model) {
  const { units } = model;
  const mass = fine(units);
  const byYear = (figure, format) => `${format(figure.p10)} – ${format(figure.mean)} – ${format(figure.p90)}`;
  const days = (x) => units.number(x, 0);
  const rice = (m) => m.environment.disease_index !== null;
  return [
    [`For the next crop, ${units.mass}: low – mean – high year`, null],
    ["Nitrogen that rotting straw takes from the soil by planting", (m) => byYear(m.environment.nitrogen_kg_per_ha.taken_up, mass)],
    ["Nitrogen given back by then", (m) => byYear(m.environment.nitrogen_kg_per_ha.given_back, mass)],
    ["Nitrogen still held, to come later", (m) => byYear(m.environment.nitrogen_kg_per_ha.held, mass)],
    ["Disease carried over: 0 none, 1 as if heavy and left untouched", (m) => (rice(m) ? byYear(m.environment.disease_index, (x) => units.number(x, 2)) : "no rice follows"), rice],
    ["For birds: low – mean – high year", null],
    [`Waste grain in late autumn, ${units.mass}`, (m) => byYear(m.environment.waste_grain_kg_per_ha, units.massNumber)],
    ["Days with water for waterfowl", (m) => byYear(m.environment.bird_days, days)],
    [`The same by area, ${units.area} × days`, (m) => units.number(m.environment.bird_ha_days * units.perHa, 0)],
  ];
}

export function airRows(model) {
  const { units } = model;
  const mass = fine(units);
  const burned = (gas) => (m) => range(m.environment.burned_kg_per_ha[gas], mass);
  const wanted = (gas) => (m) => m.environment.burned_kg_per_ha[gas].high > 0;
  const gas = (name, key) => [name, burned(key), wanted(key)];
  const flooded = (m) => m.environment.methane_flooded_winter_kg_per_ha.mean !== m.environment.methane_dry_winter_kg_per_ha.mean;
  const co2e = (key) => (m) => range(m.environment.co2e_kg_per_ha[key], units.massNumber);
  return [
    [`Into the air, ${units.mass}, with the range of the sources`, null],
    ["Methane of the next rice crop", (m) => range(m.environment.methane_kg_per_ha, mass)],
    ["the same, a winter flood counted as flooded ground", (m) => range(m.environment.methane_flooded_winter_kg_per_ha, mass), flooded],
    ["the same, a winter flood not counted", (m) => range(m.environment.methane_dry_winter_kg_per_ha, mass), flooded],
    gas("Burning: methane (CH₄)", "ch4"),
    gas("Burning: nitrous oxide (N₂O)", "n2o"),
    gas("Burning: fine smoke (PM2.5)", "pm25"),
    gas("Burning: all smoke particles", "pm"),
    gas("Burning: carbon monoxide (CO)", "co"),
    gas("Burning: nitrogen oxides (NOx)", "nox"),
    gas("Burning: organic vapours", "voc"),
    gas("Burning: CO₂ of the straw itself, left out below", "co2_biogenic"),
    ["CO₂ equivalent: burning", co2e("burn"), (m) => m.environment.co2e_kg_per_ha.burn.high > 0],
    ["CO₂ equivalent: next rice crop's methane", co2e("methane")],
    ["CO₂ equivalent: N₂O of straw worked in", co2e("residue_n2o")],
    ["CO₂ equivalent: diesel", co2e("diesel")],
    ["All as CO₂ equivalent", co2e("all")],
  ];
}

export function readingNotes(model) {
  const e = model.plan.environment;
  return h("div", { class: "note" },
    h("p", {}, `Burning by ${e.burn_factors_words}; methane by ${e.methane_set === "ipcc2019" ? "the IPCC refinement of 2019" : "the IPCC guidelines of 2006"}, region ${e.region.replace(/_/g, " ")}, ${e.cultivation_days} days of crop; warming potentials of ${e.warming_set}.`),
    e.words.map((text) => h("p", {}, text)));
}
