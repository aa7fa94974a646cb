// What there is to write down of a field or of the farm: what each asks for, and the words that it comes to
// (docs/journal.md). make(at) gives boxes, words() (null: something is still left out) and with().

import { h } from "./dom.mjs";
import { choice, numberPad, textLine } from "./note_parts.mjs";

const wordsOfUnits = { si: { area: "ha", depth: "cm", rain: "mm" }, us: { area: "acre", depth: "in", rain: "in" } };
const unitOf = (at, of) => wordsOfUnits[at.form.units][of];
const bareHa = { si: 1, us: 1 / 0.40468564224 };

export function areaWords(form, ha) {
  const value = ha * bareHa[form.units];
  return `${value.toLocaleString("en-US", { maximumFractionDigits: 1 })} ${wordsOfUnits[form.units].area}`;
}

const half = (at) => String(Math.max(0.1, Math.round(at.field.area_ha * bareHa[at.form.units] * 5) / 10));

// All, half or a number: [words] or null.
function areaBox(at, whole, changed) {
  const place = h("div", {});
  const pad = numberPad("How much of it", unitOf(at, "area"), changed);
  const left = at.field.done.find((d) => d.operation === at.operation && d.area_ha > 0 && d.finished === 0);
  const pick = choice("How much", [["all", left ? "All that was left" : "All of it", areaWords(at.form, at.field.area_ha)], ["half", "Half", `${half(at)} ${unitOf(at, "area")}`], ["part", "A part", `in ${unitOf(at, "area")}`]], whole ? "all" : "part", (value) => {
    place.replaceChildren(...(value === "part" ? [pad.box] : []));
    changed();
  }, { columns: 3 });
  if (!whole) place.replaceChildren(pad.box);
  const words = () => {
    if (pick.value() === "all") return ["finished"];
    if (pick.value() === "half") return [half(at), unitOf(at, "area")];
    return pad.value() === null ? null : [pad.value(), unitOf(at, "area")];
  };
  return { boxes: [whole ? pick.box : null, place, left && h("p", { class: "note" }, `Already written down: ${areaWords(at.form, left.area_ha)}.`)], words };
}

// Machines that do such work, tractors and people; none has to be named.
function withBox(at, changed) {
  const kind = at.form.operations.find((o) => o.id === at.operation)?.implement ?? "";
  const fitting = at.form.machines.filter((m) => kind !== "" && m.kind === kind);
  const tractors = kind === "" ? [] : at.form.machines.filter((m) => m.kind === "tractor");
  const all = [...fitting, ...tractors, ...at.form.people].map((m) => [m.id, m.id, m.name && m.name !== m.id ? m.name : null]);
  const pick = choice("With which machine, with whom", all, [], changed, { many: true, bare: true });
  return { box: h("details", { class: "more" }, h("summary", {}, "With which machine, with whom"), pick.box), value: pick.value };
}

function work(at) {
  const area = areaBox(at, true, at.changed), others = withBox(at, at.changed);
  return { boxes: [...area.boxes, others.box], words: () => area.words() && [at.operation, ...area.words()], with: others.value };
}

function rain(at) {
  const pad = numberPad("How much rain", unitOf(at, "rain"), at.changed);
  return { boxes: [pad.box], words: () => pad.value() && ["rain", pad.value(), unitOf(at, "rain")] };
}

// A choice that opens what it needs: `parts` of each value are {boxes, words()}.
function branching(at, label, options, parts, columns = 2) {
  const place = h("div", { class: "branch" });
  let part = null;
  const pick = choice(label, options, null, (value) => {
    part = parts[value]();
    place.replaceChildren(...part.boxes.filter(Boolean));
    at.changed();
  }, { columns });
  return { boxes: [pick.box, place], words: () => (part === null ? null : part.words()), with: () => part?.with?.() ?? [] };
}

const fixed = (words) => () => ({ boxes: [], words: () => words });
const measured = (at, words, label, of) => () => {
  const pad = numberPad(label, unitOf(at, of), at.changed);
  return { boxes: [pad.box], words: () => (pad.value() === null ? null : [...words, pad.value(), unitOf(at, of)]) };
};
// A number that may be left out.
const perhaps = (at, words, label, of) => () => {
  const pad = numberPad(`${label}, if you know it`, unitOf(at, of), at.changed);
  return { boxes: [pad.box], words: () => (pad.value() === null ? words : [...words, pad.value(), unitOf(at, of)]) };
};

const looked = (at) => branching(at, "How did it look", [["workable", "Workable"], ["wet", "Wet"], ["standing", "Water stands"]], {
  workable: fixed(["looked", "workable"]), wet: fixed(["looked", "wet"]), standing: measured(at, ["looked", "standing"], "How deep", "depth") }, 3);

const water = (at) => branching(at, "Canal water", [["on", "On"], ["off", "Off"]], { on: perhaps(at, ["water", "on"], "Up to what depth", "depth"), off: fixed(["water", "off"]) });

const boards = (at) => branching(at, "Boards", [["in", "In"], ["out", "Out"]], { in: perhaps(at, ["boards", "in"], "How high", "depth"), out: fixed(["boards", "out"]) });

function bales(at) {
  const of = (what) => () => {
    const pad = numberPad("How many", "bales", at.changed);
    return { boxes: [pad.box], words: () => (pad.value() === null ? null : ["bales", pad.value(), what]) };
  };
  return branching(at, "Bales", [["counted", "Counted", "on the field"], ["hauled", "Hauled", "off the field"]], { counted: of("counted"), hauled: of("hauled") });
}

function burn(at) {
  const office = () => textLine("Which office", at.changed, { start: at.authority });
  return branching(at, "Burn", [["asked", "Asked", "the authority"], ["answered", "Answered", "in its own words"], ["done", "Done", "the whole field"], ["stopped", "Stopped", "a part burned"]], {
    asked: () => {
      const who = office();
      return { boxes: [who.box], words: () => ["burn", "asked", ...(who.value() ? [who.value()] : [])] };
    },
    answered: () => {
      const said = textLine("Its words, as they were said", at.changed), who = office();
      return { boxes: [said.box, who.box], words: () => (said.value() ? ["burn", "answered", said.value(), ...(who.value() ? ["by", who.value()] : [])] : null) };
    },
    done: fixed(["burn", "done"]),
    stopped: () => {
      const area = areaBox({ ...at, operation: at.form.burning }, false, at.changed);
      return { boxes: area.boxes, words: () => area.words() && ["burn", "stopped", ...area.words()] };
    },
  });
}

function harvested(at) {
  const lay = choice("How does the straw lie", [["windrow", "Windrow"], ["spread", "Spread"], ["chopped", "Chopped"]], null, at.changed, { columns: 3 });
  return { boxes: [lay.box, h("p", { class: "note" }, "Without a word on it: as the farm folder says.")], words: () => ["harvested", ...(lay.value() ? [lay.value()] : [])] };
}

const reasons = {
  method: ["the landlord asks", "a neighbour asks", "no machine for it"], not_method: ["the landlord asks", "a neighbour asks", "no machine for it"],
  too_wet: ["ruts at the gate", "the low corner is soft", "it rained on us"], skip: ["clean without it", "no time left", "too wet for it"], neighbour: ["swapped for hours", "he had the machine there"],
};

// The owner's word: what, and a line of reason.
function word(at) {
  const because = (of) => {
    const why = textLine("Because", at.changed, { usual: reasons[of] });
    return { box: why.box, words: () => (why.value() ? ["because", why.value()] : []) };
  };
  const listed = (verb, of, label, list) => () => {
    const pick = choice(label, list.map((x) => [x.id, x.name || x.id]), null, at.changed), why = because(of);
    return { boxes: [pick.box, why.box], words: () => (pick.value() === null ? null : [verb, pick.value(), ...why.words()]) };
  };
  const operations = at.field.operations.map((id) => at.form.operations.find((o) => o.id === id));
  return branching(at, "Your word on this field", [["method", "This method"], ["not_method", "Not this method"], ["too_wet", "Too wet"], ["skip", "Skip some work"], ["neighbour", "A neighbour did it"], ["free", "Free again", "takes your word back"]], {
    method: listed("method", "method", "Which method", at.form.methods),
    not_method: listed("not", "not_method", "Which method not", at.form.methods),
    skip: listed("skip", "skip", "Which work", operations),
    neighbour: listed("neighbour", "neighbour", "Which work", operations),
    free: fixed(["free"]),
    too_wet: () => {
      const until = untilLine(at), why = because("too_wet");
      return { boxes: [until.box, why.box], words: () => ["too", "wet", ...until.words(), ...why.words()] };
    },
  });
}

function untilLine(at) {
  const until = h("input", { type: "date", min: at.day(), max: at.form.season[1], "aria-label": "Until, if you know it", onchange: at.changed });
  return { box: h("div", { class: "typed" }, h("p", { class: "asks" }, "Until, if you know it"), until), words: () => (until.value ? ["until", until.value] : []) };
}

// A machine or a person, and whether it is there.
function presence(at) {
  const all = [...at.form.machines, ...at.form.people].map((m) => [m.id, m.id, m.name && m.name !== m.id ? m.name : null]);
  const who = choice("Which machine, or who", all, null, at.changed);
  const there = branching(at, "Is it there", [["down", "Down", "or away"], ["up", "Up again"], ["here", "Come", "a hired one"]], {
    up: fixed(["up"]), here: fixed(["here"]),
    down: () => {
      const until = untilLine(at);
      return { boxes: [until.box], words: () => ["down", ...until.words()] };
    } }, 3);
  return { boxes: [who.box, ...there.boxes], words: () => (who.value() === null || there.words() === null ? null : [who.value(), ...there.words()]) };
}

// Anything, in the short words themselves.
function inWords(at) {
  const line = textLine(`In short words${at.field ? `, after ${at.field.id}` : ""}`, at.changed, { start: at.typed ?? "" });
  return { boxes: [line.box, h("p", { class: "note" }, "As docs/journal.md lists them: disk 12.5 ha 4 h; water metered 800 m3; looked cover 60 %.")], words: () => (line.value() ? splitWords(line.value()) : null) };
}

// "a \"b c\" d" as words.
export function splitWords(text) {
  return [...text.matchAll(/"([^"]*)"|([^\s"]+)/g)].map((m) => m[1] ?? m[2]);
}

export const fieldKinds = [
  ["harvested", "Harvested", harvested], ["looked", "Looked at it", looked], ["rain", "Rain here", rain], ["water", "Canal water", water], ["boards", "Boards", boards],
  ["bales", "Bales", bales], ["burn", "Burn", burn], ["word", "Your word", word], ["words", "In words", inWords],
];
export const farmKinds = [["rain", "Rain", rain], ["presence", "Machine, person", presence], ["words", "In words", inWords]];
export const workKind = work;
export const wordsKind = inWords;
