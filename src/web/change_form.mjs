// The form that puts a change together, and changes in words.

import { h } from "./dom.mjs";
import { askedChanceWords, dateWords, fieldLabel } from "./words.mjs";

const week = 6;

function dayAfter(iso, days) {
  return new Date(Date.parse(`${iso}T00:00:00Z`) + days * 86400000).toISOString().slice(0, 10);
}

let made = 0;

// A control with its label above it.
function labelled(label, control) {
  made += 1;
  control.id = `change-${made}`;
  return h("div", { class: "labelled" }, h("label", { for: control.id }, label), control);
}

function chooser(label, options, chosen) {
  const select = h("select", {}, options.map(([value, text]) => h("option", { value, selected: value === chosen }, text)));
  return { box: labelled(label, select), value: () => select.value, select };
}

function typed(label, type, value, more = {}) {
  const input = h("input", { type, value, ...more });
  return { box: labelled(label, input), value: () => input.value, input };
}

const fieldsOf = (model) => model.plan.fields.map((f) => [f.id, fieldLabel(f)]);

function methodsOf(model, fieldId) {
  const field = model.fieldById(fieldId);
  return field.methods.map((m) => [m.id, m.possible ? model.methodName(m.id) : `${model.methodName(m.id)} (ruled out now)`]);
}

// Two choosers: a field, and one of its methods.
function fieldAndMethod(model, start, methodLabel) {
  const field = chooser("Field", fieldsOf(model), start);
  const method = chooser(methodLabel, methodsOf(model, field.value()), model.fieldById(field.value()).chosen.method);
  field.select.addEventListener("change", () => {
    method.select.replaceChildren(...methodsOf(model, field.value()).map(([value, text]) => h("option", { value }, text)));
  });
  return { boxes: [field.box, method.box], field: field.value, method: method.value };
}

function fieldOrAll(model, start) {
  return chooser("On", [["", "the whole farm"], ...fieldsOf(model).map(([id, text]) => [id, `field ${text}`])], start);
}

const people = (model) => [...model.plan.machines, ...model.plan.operators].map((m) => [m.id, m.name || m.id]);

// What each kind of change asks for: boxes, and the change when they are filled in (null: not yet).
const kinds = {
  fix_method: { name: "Fix a method on a field", make: (model, at) => {
    const two = fieldAndMethod(model, at, "Method");
    return { boxes: two.boxes, change: () => ({ change: "fix_method", field: two.field(), method: two.method() }) };
  } },
  bar_method: { name: "Rule a method out on a field", make: (model, at) => {
    const two = fieldAndMethod(model, at, "Not");
    const why = typed("Because", "text", "", { maxlength: 120, placeholder: "a word or two" });
    return { boxes: [...two.boxes, why.box], change: () => ({ change: "bar_method", field: two.field(), method: two.method(), ...(why.value().trim() ? { why: why.value().trim() } : {}) }) };
  } },
  out_of_work: { name: "A machine or a person is not there", make: (model) => {
    const who = chooser("Who", people(model));
    const from = typed("From", "date", model.plan.farm.as_of);
    const to = typed("To", "date", dayAfter(model.plan.farm.as_of, week));
    return { boxes: [who.box, from.box, to.box], change: () => (from.value() && to.value() ? { change: "out_of_work", who: who.value(), from: from.value(), to: to.value() } : null) };
  } },
  move_harvest: { name: "Move a harvest", make: (model, at) => {
    const standing = model.plan.fields.filter((f) => !f.cut);
    if (standing.length === 0) return { boxes: [h("p", {}, "Every field is cut.")], change: () => null };
    const field = chooser("Field", standing.map((f) => [f.id, fieldLabel(f)]), at);
    const day = typed("Cut on", "date", model.fieldById(field.value()).harvest);
    field.select.addEventListener("change", () => { day.input.value = model.fieldById(field.value()).harvest; });
    return { boxes: [field.box, day.box], change: () => (day.value() ? { change: "move_harvest", field: field.value(), day: day.value() } : null) };
  } },
  move_planting: { name: "Move the planting date", make: (model, at) => {
    const field = fieldOrAll(model, at);
    const day = typed("Seedbed wanted by", "date", model.plan.farm.planting_date ?? "");
    return { boxes: [field.box, day.box], change: () => (day.value() ? { change: "move_planting", day: day.value(), ...(field.value() ? { field: field.value() } : {}) } : null) };
  } },
  set_price: { name: "Change a price", make: (model, at, state) => {
    const what = chooser("Price of", state.prices.map((p) => [p.what, p.what.replace(/_/g, " ")]));
    const now = () => state.prices.find((p) => p.what === what.value())?.now ?? "";
    const price = typed("New price", "text", now(), { maxlength: 40 });
    what.select.addEventListener("change", () => { price.input.value = now(); });
    return { boxes: [what.box, price.box], change: () => (price.value().trim() ? { change: "set_price", what: what.value(), price: price.value().trim() } : null) };
  } },
  want_chance: { name: "Want it surer, or less sure", make: (model, at) => {
    const field = fieldOrAll(model, at);
    const chance = typed("Ready by planting in so many years of 100", "number", Math.round(100 * model.plan.target.wanted_chance), { min: 0, max: 100, step: 1 });
    return { boxes: [field.box, chance.box], change: () => (chance.value() === "" ? null : { change: "want_chance", chance: Math.min(Math.max(+chance.value() / 100, 0), 1), ...(field.value() ? { field: field.value() } : {}) }) };
  } },
};

export function changeWords(model, change) {
  const at = change.field ? `${change.field}: ` : "";
  switch (change.change) {
    case "fix_method": return `${at}“${model.methodName(change.method)}” and nothing else`;
    case "bar_method": return `${at}not “${model.methodName(change.method)}”${change.why ? `, ${change.why}` : ""}`;
    case "move_harvest": return `${at}cut on ${dateWords(change.day)}`;
    case "move_planting": return change.field ? `${at}planting on ${dateWords(change.day)}` : `planting from ${dateWords(change.day)} on, every field moved alike`;
    case "set_price": return `${change.what.replace(/_/g, " ")} at ${change.price}`;
    case "out_of_work": return `${model.nameOf(change.who)} not there ${dateWords(change.from)} to ${dateWords(change.to)}`;
    case "want_chance": return `${at}ready by planting in ${askedChanceWords(change.chance)}`;
    default: return `${change.path} = ${change.value}`;
  }
}

// The form; add(change) is called with each change put together. at(field) turns it to a field.
export function changeForm(model, state, add) {
  const boxes = h("div", { class: "change-boxes" });
  const note = h("p", { class: "note", role: "status" });
  const kind = chooser("What changes?", Object.entries(kinds).map(([id, k]) => [id, k.name]));
  let parts = null;
  const put = (field) => {
    parts = kinds[kind.value()].make(model, field, state);
    boxes.replaceChildren(...parts.boxes);
    note.textContent = "";
  };
  kind.select.addEventListener("change", () => put());
  put();
  const form = h("form", { class: "change-form", onsubmit: (event) => {
    event.preventDefault();
    const change = parts.change();
    if (change === null) note.textContent = "Something is still left out.";
    else {
      note.textContent = "";
      add(change);
    }
  } }, kind.box, boxes, h("button", { type: "submit" }, "Add to the changes"), note);
  return { form, at: (field) => {
    kind.select.value = "fix_method";
    put(field);
    kind.select.focus();
  } };
}
