// The map: no background pictures, only the fields in the colour and pattern of their method, the places, north and scale.

import L from "leaflet";
import { h, s, section } from "./dom.mjs";
import { layerChoice, layersOf, layerWords, nameSide, waterOrder } from "./map_layers.mjs";
import { methodStyle, swatch } from "./methods.mjs";
import { capital, fieldLabel, fieldWord } from "./words.mjs";

function north() {
  const control = L.control({ position: "topright" });
  control.onAdd = () => h("div", { class: "north", role: "img", "aria-label": "North is up" },
    s("svg", { width: 30, height: 44, "aria-hidden": "true" },
      s("path", { d: "M15 2L25 32L15 25L5 32Z" }), s("text", { x: 15, y: 43, "text-anchor": "middle" }, "N")));
  return control;
}

function drawFields(map, model, open) {
  const byId = new Map(model.plan.fields.map((f) => [f.id, f]));
  const layer = L.geoJSON(model.shapes.fields, {
    style: (feature) => {
      const style = methodStyle(model.plan, byId.get(feature.properties.id)?.chosen.method);
      return { className: `field-shape tone-${style.tone}`, fillColor: style.fill, fillOpacity: 1, weight: 2 };
    },
    onEachFeature: (feature, shape) => shape.on("click", () => open(byId.get(feature.properties.id))),
  }).addTo(map);
  const order = new Map(waterOrder(model).map(({ field }, i) => [field, i + 1]));
  for (const { properties: p } of model.shapes.fields.features) label(map, model, byId.get(p.id), p.label, order.get(p.id), open);
  return layer;
}

function label(map, model, field, [x, y], waterPlace, open) {
  const icon = L.divIcon({ className: "field-number", html: h("span", { "data-water": waterPlace }, field.id), iconSize: [0, 0] });
  const marker = L.marker([y, x], { icon, keyboard: true, title: `${fieldLabel(field)}: ${model.methodName(field.chosen.method)}`, alt: `Field ${field.id}` });
  marker.on("click", () => open(field)).addTo(map);
  marker.on("keydown", ({ originalEvent }) => {
    if (!["Enter", " "].includes(originalEvent.key)) return;
    originalEvent.preventDefault();
    open(field);
  });
  marker.getElement().setAttribute("aria-label", `Field ${fieldLabel(field)}, ${model.methodName(field.chosen.method)}${waterPlace ? `, number ${waterPlace} in the order of the water` : ""}: open its sheet`);
}

const lines = ["canal", "road", "power line"];
// A sign for each kind of place that is not a line, in a box of 20 x 20.
const signs = { home: "M4 18V9L10 3L16 9V18Z", school: "M3 18V10H17V18ZM10 10V2H15V6H10", trees: "M10 18V13M10 13A5.5 5.5 0 1 1 10.1 13Z" };

function placeSign(kind) {
  return s("path", { d: signs[kind] ?? "M5 5H15V15H5Z" });
}

const placeClass = (kind) => `place place-${kind.replace(" ", "-")}`;

function placeMarker(kind, at) {
  const drawing = s("svg", { class: placeClass(kind), width: 20, height: 20, "aria-hidden": "true" }, placeSign(kind));
  return L.marker(at, { icon: L.divIcon({ className: "place-sign", html: drawing, iconSize: [20, 20] }), interactive: false, keyboard: false });
}

function drawPlaces(map, model) {
  map.createPane("place-names").style.zIndex = 590;
  L.geoJSON(model.shapes.places, {
    interactive: false,
    style: (feature) => ({ className: placeClass(feature.properties.kind), weight: 3, fillOpacity: 0.15 }),
    pointToLayer: (feature, at) => placeMarker(feature.properties.kind, at),
    onEachFeature: (feature, shape) => {
      const { kind, name } = feature.properties;
      if (!lines.includes(kind) && shape.getBounds) placeMarker(kind, shape.getBounds().getCenter()).addTo(map);
      shape.bindTooltip(name || kind, { permanent: true, className: "place-name", pane: "place-names", ...nameSide(model, shape, 8) });
    },
  }).addTo(map);
}

const touches = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

// A field's number that would lie over another one is tucked into a dot; it comes out as the map is drawn larger, or under pointer or focus.
function tuckNumbers(box) {
  const numbers = [...box.querySelectorAll(".field-number span")];
  numbers.forEach((n) => n.classList.remove("tucked"));
  const shown = [];
  const tucked = numbers.filter((n) => {
    const at = n.getBoundingClientRect();
    if (shown.some((other) => touches(at, other))) return true;
    shown.push(at);
    return false;
  });
  tucked.forEach((n) => n.classList.add("tucked"));
}

// Names that would lie over one another or over a control are left out; they come back as the map is drawn larger.
function thinNames(box) {
  tuckNumbers(box);
  const taken = [...box.querySelectorAll(".field-number span, .leaflet-control")].map((e) => e.getBoundingClientRect());
  // A sign is less than its box, and a name begins right beside its own.
  for (const sign of box.querySelectorAll(".place-sign")) {
    const r = sign.getBoundingClientRect();
    taken.push({ left: r.left + 5, right: r.right - 5, top: r.top + 5, bottom: r.bottom - 5 });
  }
  const edge = box.getBoundingClientRect();
  for (const name of box.querySelectorAll(".place-name")) {
    const at = name.getBoundingClientRect();
    const hidden = taken.some((other) => touches(at, other)) || at.right > edge.right || at.left < edge.left;
    name.style.visibility = hidden ? "hidden" : "";
    if (!hidden) taken.push(at);
  }
}

function placeSample(kind) {
  const drawing = lines.includes(kind) ? s("path", { d: "M1 10H29" }) : s("g", { transform: "translate(5 0)" }, placeSign(kind));
  return s("svg", { class: `swatch ${placeClass(kind)}`, width: 30, height: 20, "aria-hidden": "true" }, drawing);
}

function legend(model) {
  const used = [...new Set(model.plan.fields.map((f) => f.chosen.method))];
  const kinds = [...new Set(model.shapes.places.features.map((f) => f.properties.kind))];
  return h("ul", { class: "key", "aria-label": "Colours and patterns of the map" },
    used.map((id) => h("li", {}, swatch(model.plan, id), capital(model.methodName(id)))),
    kinds.map((kind) => h("li", {}, placeSample(kind), capital(kind))));
}

// Fields, and where there is room the places that are not long lines.
function boundsOf(model, wide) {
  const near = !wide ? [] : model.shapes.places.features.filter((f) => f.geometry.type !== "LineString");
  return L.geoJSON([...model.shapes.fields.features, ...near]).getBounds();
}

// No moving pictures for those who asked for none.
function still() {
  const asked = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
  return asked ? { zoomAnimation: false, fadeAnimation: false, markerZoomAnimation: false, inertia: false } : {};
}

// The size of the map on paper, and back.
function fitToPaper(map, box, model) {
  const size = (width, height) => {
    Object.assign(box.style, { width, height });
    map.invalidateSize({ animate: false });
  };
  let view = null;
  window.addEventListener("beforeprint", () => {
    view = [map.getCenter(), map.getZoom()];
    size("17.5cm", "12cm");
    map.fitBounds(boundsOf(model, true), { padding: [16, 16], animate: false });
  });
  window.addEventListener("afterprint", () => {
    size("", "");
    if (view) map.setView(...view, { animate: false });
  });
}

function draw(box, model, layers, open) {
  const map = L.map(box, { attributionControl: false, scrollWheelZoom: false, dragging: !L.Browser.mobile, zoomSnap: 0.25, ...still(), renderer: L.svg({ padding: 0.5 }) });
  // A first view before anything is drawn: labels need a projection.
  const wide = box.clientWidth > 600;
  map.fitBounds(boundsOf(model, wide), { padding: wide ? [28, 28] : [12, 30], animate: false });
  drawPlaces(map, model);
  drawFields(map, model, open);
  const us = model.plan.farm.units === "us";
  L.control.scale({ imperial: us, metric: !us, position: "bottomleft" }).addTo(map);
  north().addTo(map);
  const drawn = new Map(layers.map((l) => [l.id, l.draw(map)]));
  layers.filter((l) => l.on).forEach((l) => drawn.get(l.id).addTo(map));
  map.on("zoomend moveend resize", () => thinNames(box));
  thinNames(box);
  fitToPaper(map, box, model);
  new ResizeObserver(() => map.invalidateSize({ animate: false })).observe(box);
  return { map, toggle: (id, on) => {
    if (on) drawn.get(id).addTo(map);
    else drawn.get(id).remove();
    thinNames(box);
  } };
}

export function mapSection(model, open) {
  const drawn = new Set(model.shapes.fields.features.map((f) => f.properties.id));
  const missing = model.plan.fields.filter((f) => !drawn.has(f.id));
  const box = h("div", { id: "map", role: "group", "aria-label": "Map of the fields" });
  const guessed = model.plan.fields.filter((f) => f.invented_shape && drawn.has(f.id));
  const layers = drawn.size > 0 ? layersOf(model) : [];
  let drawing = null;
  const part = section("where", "Where", "Press a field to open its sheet.", box, layerChoice(layers, (id, on) => drawing?.toggle(id, on)), legend(model), layerWords(model, layers),
    guessed.length > 0 && h("p", { class: "note" }, `Drawn as a plain rectangle because no outline was given: ${fieldWord(guessed)} ${guessed.map((f) => f.id).join(", ")}.`),
    missing.length > 0 && h("p", { class: "note" }, `Not on the map, because no outline was given: ${fieldWord(missing)} ${missing.map((f) => f.id).join(", ")}.`));
  if (drawn.size === 0) box.replaceChildren("No field has an outline.");
  return { part, map: () => drawing?.map, mount: () => { if (drawn.size > 0) drawing = draw(box, model, layers, open); } };
}
