// What a note is put together from, for thumbs in gloves: words to choose, a pad of numbers, a day.

import { h } from "./dom.mjs";
import { dateWords, weekdayWords } from "./words.mjs";

// One of several words, or none; what is chosen has a tick. `options`: [value, words, small words].
export function choice(label, options, chosen, changed, { many = false, columns = 2, bare = false } = {}) {
  let picked = many ? [...chosen] : chosen;
  const has = (value) => (many ? picked.includes(value) : picked === value);
  const buttons = options.map(([value, words, small]) => h("button", { type: "button", class: "pick", "data-value": value, onclick: () => {
    if (many) picked = has(value) ? picked.filter((v) => v !== value) : [...picked, value];
    else picked = value;
    draw();
    changed(picked);
  } }, h("span", { class: "tick", "aria-hidden": "true" }), h("span", {}, words, small && h("small", {}, small))));
  const draw = () => buttons.forEach((b) => b.setAttribute("aria-pressed", String(has(b.dataset.value))));
  draw();
  return { box: h("div", { class: "picks-box" }, label && !bare && h("p", { class: "asks" }, label), h("div", { class: `picks columns-${columns}`, role: "group", "aria-label": label }, buttons)), value: () => picked };
}

const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0", "back"];

// A number by big keys; the phone's own keyboard stays away. value(): the number as text, null: none yet.
export function numberPad(label, unit, changed) {
  const input = h("input", { type: "text", inputmode: "none", autocomplete: "off", maxlength: 9, "aria-label": `${label}, ${unit}`, oninput: () => changed() });
  const press = (key) => {
    const now = input.value;
    input.value = key === "back" ? now.slice(0, -1) : key === "." && now.includes(".") ? now : (now + key).slice(0, 9);
    changed();
  };
  const pad = h("div", { class: "pad", role: "group", "aria-label": `${label}: numbers` }, keys.map((key) =>
    h("button", { type: "button", "aria-label": key === "back" ? "Take the last number away" : key === "." ? "Point" : undefined, onclick: () => press(key) }, key === "back" ? "⌫" : key)));
  const value = () => {
    const text = input.value.trim().replace(",", ".");
    return /^(\d+\.?\d*|\.\d+)$/.test(text) && +text > 0 ? String(+text) : null;
  };
  return { box: h("div", { class: "number" }, h("p", { class: "asks" }, label), h("div", { class: "number-line" }, input, h("span", { class: "unit" }, unit)), pad), value };
}

// A line to type, with usual answers above it. value(): the words, "" without.
export function textLine(label, changed, { usual = [], start = "" } = {}) {
  const input = h("input", { type: "text", maxlength: 200, value: start, "aria-label": label, oninput: () => changed() });
  const offers = usual.map((words) => h("button", { type: "button", class: "pick", onclick: () => {
    input.value = words;
    changed();
  } }, words));
  return { box: h("div", { class: "typed" }, h("p", { class: "asks" }, label), offers.length > 0 && h("div", { class: "picks columns-2", role: "group", "aria-label": `${label}: usual answers` }, offers), input), value: () => input.value.trim() };
}

const before = (iso) => new Date(Date.parse(`${iso}T00:00:00Z`) - 86400000).toISOString().slice(0, 10);

export function dayLine(today, first, start, changed) {
  let day = start;
  const yesterday = before(today);
  const other = h("input", { type: "date", min: first, max: today, value: start, class: "other-day", "aria-label": "Another day", onchange: () => {
    if (other.value) set(other.value);
  } });
  const words = { [today]: "Today", [yesterday]: "Yesterday" };
  const buttons = Object.keys(words).sort().reverse().filter((iso) => iso >= first).map((iso) => h("button", { type: "button", class: "pick", "data-value": iso, onclick: () => set(iso) },
    h("span", { class: "tick", "aria-hidden": "true" }), h("span", {}, words[iso], h("small", {}, `${weekdayWords(iso)} ${dateWords(iso)}`))));
  const draw = () => {
    buttons.forEach((b) => b.setAttribute("aria-pressed", String(b.dataset.value === day)));
    other.value = day;
  };
  const set = (iso) => {
    day = iso;
    draw();
    changed();
  };
  draw();
  return { box: h("div", { class: "picks-box" }, h("p", { class: "asks" }, "Day"), h("div", { class: "picks columns-2 day-picks", role: "group", "aria-label": "Day" }, buttons, other)), value: () => day };
}

// Words as they are written down: names and sayings of several words in quotation marks.
export function lineOf(words) {
  return words.map((w) => (/\s/.test(w) || w === "" ? `“${w}”` : w)).join(" ");
}
// The same as it is typed.
export function typedLine(words) {
  return words.map((w) => (/[\s"]/.test(w) ? `"${w.replaceAll('"', "'")}"` : w)).join(" ");
}
