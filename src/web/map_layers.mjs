// What can be laid over the fields of the map: setbacks of burn rows, stack places, the order and ways of water.

import L from "leaflet";
import { h, s } from "./dom.mjs";
import { count, dateWords } from "./words.mjs";

// Fields in the order in which water comes to them in the schedule's year: by their first day of canal water, or of boards in.
export function waterOrder(model) {
  const first = new Map();
  const note = (field, date) => { if (!first.has(field) || date < first.get(field)) first.set(field, date); };
  for (const w of model.plan.water) note(w.field, w.date);
  for (const p of model.passes)
    if (model.plan.operations.find((o) => o.id === p.operation)?.water === "boards_in" && !model.plan.water.some((w) => w.field === p.field)) note(p.field, p.start.slice(0, 10));
  return [...first].map(([field, date]) => ({ field, date })).sort((a, b) => (a.date === b.date ? 0 : a.date < b.date ? -1 : 1));
}

// Each way once: from the field that gives the water to the one that takes it.
function ways(model) {
  const seen = new Map();
  for (const l of model.shapes.links) {
    const [from, to] = l.kind === "drains_to" ? [l.field, l.other] : [l.other, l.field];
    const seeps = l.kind === "seeps_from";
    seen.set([from, to, seeps].join("\n"), { from, to, seeps });
  }
  return [...seen.values()];
}

function setbacks(model) {
  const group = L.layerGroup();
  L.geoJSON(model.shapes.setbacks, { interactive: false, style: () => ({ className: "setback", fillColor: "url(#setback)", fillOpacity: 1, weight: 1.5 }) }).addTo(group);
  return group;
}

function stackSign() {
  return s("svg", { class: "stack-sign", width: 24, height: 24, "aria-hidden": "true" },
    s("path", { d: "M2 22V14H8V8H16V14H22V22ZM8 14H16M8 14V22M16 14V22" }));
}

// The name of what lies west of the fields stands to its left, so that it covers no field.
export function nameSide(model, shape, gap) {
  const { features } = model.shapes.fields;
  const middle = shape.getBounds ? shape.getBounds().getCenter() : shape.getLatLng();
  const west = features.length > 0 && middle.lng < L.geoJSON(features).getBounds().getWest();
  return west ? { direction: "left", offset: [-gap, 0] } : { direction: "right", offset: [gap, 0] };
}

function stacks(model) {
  const group = L.layerGroup();
  L.geoJSON(model.shapes.stacks, {
    interactive: false,
    style: () => ({ className: "stack-ground", weight: 2, fillOpacity: 0.5 }),
    pointToLayer: (_, at) => L.marker(at, { icon: L.divIcon({ className: "place-sign", html: stackSign(), iconSize: [24, 24] }), interactive: false, keyboard: false }),
    onEachFeature: (feature, shape) => {
      if (shape.getBounds) L.marker(shape.getBounds().getCenter(), { icon: L.divIcon({ className: "place-sign", html: stackSign(), iconSize: [24, 24] }), interactive: false, keyboard: false }).addTo(group);
      shape.bindTooltip(feature.properties.id, { permanent: true, className: "place-name", pane: "place-names", ...nameSide(model, shape, 10) });
    },
  }).addTo(group);
  return group;
}

const labelOf = (model, id) => model.shapes.fields.features.find((f) => f.properties.id === id)?.properties.label;

function arrow(map, model, way) {
  const [a, b] = [labelOf(model, way.from), labelOf(model, way.to)];
  if (!a || !b) return [];
  const [from, to] = [L.latLng(a[1], a[0]), L.latLng(b[1], b[0])];
  const [p, q] = [map.project(from), map.project(to)];
  const turn = (Math.atan2(q.y - p.y, q.x - p.x) * 180) / Math.PI;
  const middle = map.unproject(p.multiplyBy(0.45).add(q.multiplyBy(0.55)));
  const head = s("svg", { class: way.seeps ? "water-head seeps" : "water-head", width: 22, height: 22, "aria-hidden": "true" }, s("path", { transform: `rotate(${turn} 11 11)`, d: "M4 3L19 11L4 19L8 11Z" }));
  return [L.polyline([from, to], { className: way.seeps ? "water-way seeps" : "water-way", interactive: false, weight: 3 }),
    L.marker(middle, { icon: L.divIcon({ className: "place-sign", html: head, iconSize: [22, 22] }), interactive: false, keyboard: false })];
}

function water(map, model) {
  const group = L.layerGroup();
  ways(model).forEach((way) => arrow(map, model, way).forEach((part) => part.addTo(group)));
  // The numbers stand in the labels of the fields.
  group.on("add remove", ({ type }) => map.getContainer().classList.toggle("water-shown", type === "add"));
  return group;
}

// Every layer that this farm has something for: its name, whether it is shown at first, and what draws it.
export function layersOf(model) {
  const burns = model.plan.fields.some((f) => model.plan.methods.find((m) => m.id === f.chosen.method)?.burns);
  const bales = model.plan.fields.some((f) => model.plan.methods.find((m) => m.id === f.chosen.method)?.bales);
  const has = (collection) => collection.features.length > 0;
  return [
    has(model.shapes.stacks) && { id: "stacks", name: "Stack places", on: bales, draw: () => stacks(model) },
    has(model.shapes.setbacks) && { id: "setbacks", name: "Burn setbacks", on: burns, draw: () => setbacks(model) },
    (waterOrder(model).length > 0 || ways(model).length > 0) && { id: "water", name: "Water order", on: true, draw: (map) => water(map, model) },
  ].filter(Boolean);
}

// The choice of what is shown, each with its sample.
export function layerChoice(layers, toggle) {
  if (layers.length === 0) return null;
  return h("fieldset", { class: "layer-choice control" }, h("legend", {}, "Show on the map"),
    layers.map((l) => h("label", {}, h("input", { type: "checkbox", name: l.id, checked: l.on, onchange: (event) => toggle(l.id, event.target.checked) }), " ", l.name)));
}

function setbackWords(model) {
  const rows = new Map();
  for (const { properties: p } of model.shapes.setbacks.features) rows.set(p.row, p);
  const { farm } = model.plan;
  const reach = (m) => (farm.units === "us" ? `${model.units.number(m / 0.3048, 0)} ft` : `${m} m`);
  return [...rows.values()].map((p) => `${reach(p.metres)} from each ${p.kind}: ${p.says}, ${p.weight}, ${p.source}`);
}

// What the layers say, in words: also for those who do not see the map.
export function layerWords(model, layers) {
  const has = (id) => layers.some((l) => l.id === id);
  const order = waterOrder(model);
  const sample = (drawing, box) => s("svg", { class: "swatch", width: 30, height: 20, viewBox: box, "aria-hidden": "true" }, drawing);
  return h("ul", { class: "key wide map-words" },
    has("stacks") && h("li", {}, sample(stackSign(), "0 0 24 24"), h("span", {}, `Stack place: ${model.shapes.stacks.features.map((f) => `${f.properties.id} (${stackWords(f.properties)})`).join(", ")}`)),
    has("setbacks") && h("li", {}, sample(s("rect", { class: "setback", x: 1, y: 1, width: 28, height: 18, fill: "url(#setback)" })), h("div", {}, `Burn setback: ground nearer than a row of ${model.plan.burning?.jurisdiction ?? "the rules"} asks for.`, h("ul", {}, setbackWords(model).map((text) => h("li", {}, text))))),
    has("water") && h("li", {}, sample([s("circle", { class: "water-dot", cx: 15, cy: 10, r: 9 }), s("text", { x: 15, y: 14.5, "text-anchor": "middle" }, "1")]),
      h("span", {}, order.length > 0 && `Order of the water in the weather of ${model.plan.schedule_year}: ${order.map((o, i) => `${i + 1} field ${o.field} (${dateWords(o.date)})`).join(", ")}. `, wayWords(model))));
}

function stackWords(p) {
  return [p.cover, p.most_bales !== null && `at most ${count(p.most_bales, "bale", "bales")}`].filter(Boolean).join(", ");
}

function wayWords(model) {
  const all = ways(model).map((w) => `${w.from} ${w.seeps ? "seeps into" : "gives its water to"} ${w.to}`);
  return all.length > 0 ? `Arrows: ${all.join(", ")}.` : "";
}

