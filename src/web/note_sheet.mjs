// The sheet on which one entry is put together: where, what, how much. The line at its top is what will stand in the
// journal.

import { h } from "./dom.mjs";
import { areaWords, farmKinds, fieldKinds, wordsKind, workKind } from "./note_kinds.mjs";
import { choice, dayLine, lineOf, textLine } from "./note_parts.mjs";
import { newId } from "./waiting.mjs";
import { capital, dateWords, weekdayWords } from "./words.mjs";

const remembered = "aftercut.by";

function recall(key) {
  try {
    return localStorage.getItem(key) ?? "";
  } catch {
    return "";
  }
}

function remember(key, value) {
  try {
    localStorage.setItem(key, value);
  } catch {
    // it is asked again
  }
}

const big = (words, small, onclick, more = {}) => h("button", { type: "button", class: "pick", onclick, ...more }, h("span", {}, words, small && h("small", {}, small)));
const group = (label, columns, buttons) => h("div", { class: "picks-box" }, h("p", { class: "asks" }, label), h("div", { class: `picks columns-${columns}`, role: "group", "aria-label": label }, buttons));

// `desk`: {form() the journal as the server told it, today(), authority, waiting, written(id) the entry that stands}.
export class NoteSheet {
  constructor(desk) {
    this.desk = desk;
    this.title = h("h2", { id: "write-down-title", tabindex: -1 });
    this.line = h("p", { class: "the-line", "aria-live": "polite" });
    this.body = h("div", { class: "note-body" });
    this.foot = h("div", { class: "note-foot" });
    this.back = h("button", { type: "button", class: "pick", onclick: () => this.steps.at(-1)?.() }, "Back");
    this.box = h("dialog", { class: "write-down", "aria-labelledby": "write-down-title" }, h("div", { class: "note-head" }, this.title, this.back,
      h("button", { type: "button", class: "pick", onclick: () => this.box.close() }, "Close")), this.line, this.body, this.foot);
    this.steps = [];
  }

  // Begins: at the fields, at one field, or at a line to be mended.
  open({ field = null, corrects = null, mend = null, takeBack = null } = {}) {
    this.corrects = corrects;
    this.mend = mend;
    this.steps = [];
    if (!this.box.open) this.box.showModal();
    if (mend) return this.ask("Mend it", null, wordsKind, { typed: mend.typed, day: mend.done_on });
    if (takeBack) return this.takeBack(takeBack);
    return field ? this.what(field) : this.where();
  }

  show(title, line, body, foot, back) {
    this.title.textContent = title;
    this.line.textContent = line;
    this.line.hidden = line === "";
    this.body.replaceChildren(...body.flat().filter(Boolean));
    this.foot.replaceChildren(...foot.filter(Boolean));
    this.foot.hidden = foot.length === 0;
    this.steps = back ? [back] : [];
    this.back.hidden = !back;
    this.body.scrollTop = 0;
    (this.body.querySelector("button, input, summary") ?? this.title).focus({ preventScroll: true });
  }

  begun() {
    return this.corrects ? `Instead of entry ${this.corrects}: ` : "";
  }

  where() {
    const form = this.desk.form();
    const fields = (list) => list.map((f) => big(f.id, f.name !== f.id && f.name, () => this.what(f.id), { class: "pick field" }));
    const near = form.fields.filter((f) => f.near.length > 0), others = form.fields.filter((f) => f.near.length === 0);
    this.show("Where?", this.begun(), [
      near.length > 0 && group("Work in the plan this week", 3, fields(near)),
      group("The whole farm", 3, farmKinds.map(([, name, make]) => big(name, null, () => this.ask(name, null, make, {}, () => this.where())))),
      others.length > 0 && group(near.length > 0 ? "Other fields" : "Fields", 3, fields(others)),
    ], [], null);
  }

  what(id) {
    const form = this.desk.form();
    const field = form.fields.find((f) => f.id === id);
    const back = () => this.what(id);
    const names = form.operations.map((o) => o.name);
    // Two kinds of work of one name are told apart by their ids.
    const name = (o) => {
      const words = form.operations.find((x) => x.id === o)?.name ?? o;
      return capital(names.filter((n) => n === words).length > 1 ? o.replaceAll("_", " ") : words);
    };
    const far = [form.burning, ...form.boards];  // they have words of their own below
    const works = field.operations.filter((o) => !far.includes(o));
    const small = (o) => {
      const done = field.done.find((d) => d.operation === o);
      if (done) return done.finished > 0 ? `done ${dateWords(done.last)}` : `${areaWords(form, done.area_ha)} done`;
      return field.near.includes(o) ? "planned this week" : null;
    };
    const work = (o) => big(name(o), small(o), () => this.ask(name(o), field, workKind, { operation: o }, back), { "data-operation": o });
    const planned = new Set(field.operations.slice(0, field.planned));
    const likely = works.filter((o) => planned.has(o)), other = works.filter((o) => !planned.has(o));
    const kinds = fieldKinds.filter(([kind]) => kind !== "harvested" || !field.cut);
    this.show(`${id}: what?`, `${this.begun()}${id}`, [
      field.cut && likely.length > 0 && group("Work, as the plan has it", 2, likely.map(work)),
      group(field.cut ? "Seen and said" : "It is not cut yet", 2, kinds.map(([, label, make]) => big(label, null, () => this.ask(label, field, make, {}, back)))),
      field.cut && other.length > 0 && group("Other work", 2, other.map(work)),
    ], [], () => this.where());
  }

  // What kind of entry it is, is known: how much, when, who.
  ask(title, field, make, more, back) {
    const form = this.desk.form(), today = this.desk.today();
    let draw = () => {};
    const changed = () => draw();
    const day = dayLine(today, form.season[0], more.day ?? today, changed);
    const at = { form, field, changed, day: day.value, authority: this.desk.authority, ...more };
    const kind = make(at);
    const who = this.whoLine(changed);
    const write = h("button", { type: "button", class: "pick write", onclick: () => this.write(this.noteOf(field, kind, day, who)) }, "Write it down");
    draw = () => {
      const note = this.noteOf(field, kind, day, who);
      write.disabled = note.words === null || note.by === "";
      this.line.textContent = note.words === null ? `${this.begun()}${field?.id ?? ""} …` : this.plain(note);
    };
    this.show(field ? `${field.id}: ${title}` : title, "…", [kind.boxes, day.box, who.box], [write], back ?? null);
    draw();
  }

  noteOf(field, kind, day, who) {
    const said = kind.words();
    const words = said === null ? null : [...(this.corrects ? ["correct", String(this.corrects)] : []), ...(field ? [field.id] : []), ...said];
    return { id: this.mend?.fresh ?? newId(), done_on: day.value(), by: who.value(), words, with: kind.with?.() ?? this.mend?.with ?? [], note: this.mend?.note ?? "" };
  }

  // The words, the day, who says so.
  plain(note) {
    const when = note.done_on === this.desk.today() ? "today" : `${weekdayWords(note.done_on)} ${dateWords(note.done_on)}`;
    return [lineOf(note.words), note.with.length > 0 && `with ${note.with.join(", ")}`, when, note.by && `says ${note.by}`].filter(Boolean).join(" · ");
  }

  // Asked once, then remembered on this phone.
  whoLine(changed) {
    const start = recall(remembered);
    const typed = textLine("Another name", () => {
      picked = typed.value();
      changed();
    });
    let picked = start;
    const pick = choice("Who says so", this.desk.form().people.map((p) => [p.id, p.id]), start, (value) => {
      picked = value;
      changed();
    }, { columns: 3 });
    const box = h("details", { class: "more", open: start === "" }, h("summary", {}, start === "" ? "Who says so?" : `Says ${start}`), pick.box, typed.box);
    return { box, value: () => picked };
  }

  takeBack(entry) {
    const note = { id: newId(), done_on: this.desk.today(), by: recall(remembered) || entry.by, words: ["take", "back", String(entry.seq)], with: [], note: "" };
    this.show(`Take entry ${entry.seq} back`, this.plain(note), [h("p", {}, `Entry ${entry.seq}, ${dateWords(entry.done_on)}: ${entry.words}.`), h("p", { class: "note" }, "It stays in the journal, and does not hold any more.")],
      [h("button", { type: "button", class: "pick write", onclick: () => this.write(note) }, "Take it back")], null);
  }

  async write(note) {
    remember(remembered, note.by);
    if (this.mend) this.desk.waiting.drop(this.mend.id);
    const field = note.words.includes("take") ? null : this.desk.form().fields.find((f) => note.words.includes(f.id))?.id;
    this.corrects = this.mend = null;
    this.show("Writing it down", this.plain(note), [h("p", { role: "status" }, "On its way.")], [], null);
    const slow = new Promise((done) => { setTimeout(done, 4000); });
    await Promise.race([this.desk.waiting.add(note), slow]);
    if (this.box.open) this.after(note, field);
  }

  // What came of it: it stands, it waits, or it was refused.
  after(note, field) {
    const entry = this.desk.written(note.id), kept = this.desk.waiting.list.find((n) => n.id === note.id);
    const next = h("div", { class: "picks columns-2" }, field && big(`More on ${field}`, null, () => this.open({ field })), big("Something else", null, () => this.open()),
      entry && !note.words.includes("take") && big("Take back", `entry ${entry.seq}`, () => this.open({ takeBack: entry })));
    const close = h("button", { type: "button", class: "pick write", onclick: () => this.box.close() }, "Done");
    if (entry) return this.show("Written down", "", [h("p", { class: "stands", role: "status" }, `Entry ${entry.seq}: ${dateWords(entry.done_on)}, ${entry.words}.`), next], [close], null);
    if (kept?.refused) return this.show("Not written down", this.plain(note), [this.desk.refusal(kept)], [close], null);
    return this.show("Not written down yet", this.plain(note), [h("p", { class: "stands", role: "status" }, "The server does not answer. It is kept on this phone and goes in by itself once the server is back."), next], [close], null);
  }
}

