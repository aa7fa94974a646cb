// How methods and operations look: each method has a colour and a pattern, each operation a shape, a colour and a letter.

import { s, h } from "./dom.mjs";

// Pattern drawings on a tile of 10 by 10, over the method's tint.
const patterns = [
  () => [s("path", { d: "M0 0L10 10M-2.5 7.5L2.5 12.5M7.5 -2.5L12.5 2.5" })],
  () => [s("path", { d: "M0 5H10" })],
  () => [s("circle", { cx: 2.5, cy: 2.5, r: 1.3, class: "dot" }), s("circle", { cx: 7.5, cy: 7.5, r: 1.3, class: "dot" })],
  () => [s("path", { d: "M5 0V10" })],
  () => [s("path", { d: "M0 0L10 10M10 0L0 10" })],
  () => [s("path", { d: "M0 7Q2.5 3 5 7T10 7" })],
  () => [s("path", { d: "M10 0L0 10M-2.5 2.5L2.5 -2.5M7.5 12.5L12.5 7.5" })],
  () => [s("path", { d: "M0 5H10M5 0V10" })],
  () => [s("path", { d: "M2 8L5 3L8 8" })],
  () => [],
  () => [s("path", { d: "M0 2.5H5M5 7.5H10" })],
];

const toneOf = (index) => (index < 0 ? "none" : index % 10);

export function methodStyle(plan, id) {
  const index = plan.methods.findIndex((m) => m.id === id);
  return { index, tone: toneOf(index), fill: `url(#method-${index})`, name: index < 0 ? "no method is open" : plan.methods[index].name };
}

function pattern(id, tone, drawing) {
  return s("pattern", { id, width: 10, height: 10, patternUnits: "userSpaceOnUse", class: `tone-${tone}` },
    s("rect", { width: 10, height: 10, class: "tint" }), drawing);
}

// One invisible drawing that holds every pattern of the page.
export function patternStore(plan) {
  return s("svg", { width: 0, height: 0, class: "store", "aria-hidden": "true" }, s("defs", {},
    plan.methods.map((m, i) => pattern(`method-${i}`, toneOf(i), patterns[i % patterns.length]())),
    pattern("method--1", "none", [s("path", { d: "M2 2L8 8M8 2L2 8" })]),
    s("pattern", { id: "setback", width: 8, height: 8, patternUnits: "userSpaceOnUse" }, s("path", { class: "setback-line", d: "M0 8L8 0M-2 2L2 -2M6 10L10 6" })),
    pattern("held-water", "water", [s("path", { d: "M0 7Q2.5 3 5 7T10 7" })])));
}

export function swatch(plan, id) {
  const style = methodStyle(plan, id);
  return s("svg", { class: "swatch", width: 30, height: 20, "aria-hidden": "true" },
    s("rect", { x: 1, y: 1, width: 28, height: 18, fill: style.fill, class: `edge tone-${style.tone}` }));
}

function kindOf(operation) {
  if (operation.burning) return "fire";
  if (operation.water !== "none") return "water";
  if (["baler", "bale_wagon", "mower", "rake"].includes(operation.implement)) return "bale";
  return operation.tillage ? "till" : "other";
}

// A letter for each name in use; within one shape no two names alike where the names have letters to spare.
function lettersOf(operations) {
  const given = new Map();
  const taken = new Set();
  for (const operation of operations) {
    const { name } = operation;
    if (given.has(name)) continue;
    const kind = kindOf(operation);
    const starts = name.split(/\s+/).map((word) => word.charAt(0));
    const wanted = [...starts, ...name.replace(/\s/g, "")].map((c) => c.toUpperCase());
    const letter = wanted.find((c) => !taken.has(kind + c)) ?? wanted[0] ?? "?";
    taken.add(kind + letter);
    given.set(name, letter);
  }
  return given;
}

export function operationMarks(plan) {
  const used = new Set(plan.schedule.map((row) => row.operation));
  const operations = plan.operations.filter((o) => used.has(o.id));
  const letters = lettersOf(operations);
  return new Map(operations.map((o) => [o.id, { name: o.name, kind: kindOf(o), letter: letters.get(o.name) }]));
}

const outlines = {
  fire: "M0 -11L10.5 8H-10.5Z",
  water: "M-9 0A9 9 0 1 0 9 0A9 9 0 1 0 -9 0Z",
  bale: "M-8.5 -8.5H8.5V8.5H-8.5Z",
  till: "M0 -11.5L11.5 0L0 11.5L-11.5 0Z",
  other: "M-5.5 -9H5.5L10.5 0L5.5 9H-5.5L-10.5 0Z",
};

export function mark(look, x, y) {
  return s("g", { class: `mark ${look.kind}`, transform: `translate(${x},${y})` },
    s("path", { d: outlines[look.kind] }),
    s("text", { y: look.kind === "fire" ? 6 : 4.5, "text-anchor": "middle" }, look.letter));
}

export function markKey(marks) {
  const seen = new Map([...marks.values()].map((look) => [look.name, look]));
  return h("ul", { class: "key" }, [...seen.values()].map((look) =>
    h("li", {}, s("svg", { width: 26, height: 26, "aria-hidden": "true" }, mark(look, 13, 13)), look.name)));
}
