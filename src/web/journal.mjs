// What was written down, what still waits on this phone, and the plan made again after it. At a server only.

import { isOver, issueList, onItsWay, putQuestion } from "./answer.mjs";
import { ask } from "./ask.mjs";
import { h, redraw, section } from "./dom.mjs";
import { lineOf, typedLine } from "./note_parts.mjs";
import { NoteSheet } from "./note_sheet.mjs";
import { Standing } from "./standing.mjs";
import { newId, Waiting } from "./waiting.mjs";
import { capital, count, dateWords, listWords, weekdayWords } from "./words.mjs";

const shownAtFirst = 8;  // entries, before the others are asked for
const patience = 10000;  // ms between two tries while something waits

const daysSince = (then) => Math.round((Date.UTC(...here(new Date())) - Date.UTC(...here(then))) / 86400000);
const here = (date) => [date.getFullYear(), date.getMonth(), date.getDate()];
const laterBy = (iso, days) => new Date(Date.parse(`${iso}T00:00:00Z`) + days * 86400000).toISOString().slice(0, 10);

const small = (words, label, onclick) => h("button", { type: "button", class: "pick slim", "aria-label": label, onclick }, words);

class Journal {
  constructor(model, form, state) {
    this.model = model;
    this.form = form;
    this.readAt = new Date();
    this.job = state.job?.kind === "morning" ? state.job : null;
    this.made = state.plans.map((p) => p.id).filter((id) => id.startsWith("morning-")).at(-1) ?? null;  // the last plan made again
    this.confirmed = new Map();  // id -> the entry that stands
    this.list = h("div", {});
    this.since = h("div", { "aria-live": "polite" });
    this.waits = h("div", { "aria-live": "polite" });
    this.bar = h("div", { class: "write-bar" });
    this.waiting = new Waiting({ folder: state.folder, send: ask.write, changed: () => this.drawWaiting(), written: (note, entry) => {
      this.confirmed.set(note.id, entry);
      this.readAgain();
    } });
    this.sheet = new NoteSheet({ form: () => this.form, today: () => laterBy(this.form.today, daysSince(this.readAt)), authority: model.plan.burning?.authority ?? "", waiting: this.waiting,
      written: (id) => this.confirmed.get(id), refusal: (note) => this.refusal(note) });
    this.draw();
    this.drawWaiting();
  }

  opener() {
    return h("button", { type: "button", class: "pick write", onclick: () => this.sheet.open() }, "Write down");
  }

  draw() {
    this.drawList();
    this.drawSince();
  }

  row(entry) {
    const odd = this.form.doubts.filter((d) => d.entries.at(-1) === entry.seq);
    return h("li", {}, h("span", { class: "when" }, `${weekdayWords(entry.done_on)} ${dateWords(entry.done_on)}`),
      h("span", {}, h("span", { class: "said" }, `${entry.seq}. ${entry.words}`), h("small", {}, ` ${entry.by}${entry.correction ? ", a correction" : ""}`),
        odd.map((d) => h("p", { class: "odd" }, capital(d.words), ".")),
        h("span", { class: "buttons" }, small("Correct", `Correct entry ${entry.seq}`, () => this.sheet.open({ corrects: entry.seq, field: entry.field })),
          small("Take back", `Take back entry ${entry.seq}`, () => this.sheet.open({ takeBack: entry })))));
  }

  drawList() {
    const { entries, torn } = this.form;
    const rows = (list) => h("ol", { class: "entries" }, list.map((e) => this.row(e)));
    redraw(this.list, ...[
      torn && h("p", { class: "warning" }, "The journal’s last line was not written to its end and does not count. The next entry puts it aside."),
      entries.length === 0 ? h("p", { class: "note" }, "Nothing is written down yet.") : rows(entries.slice(0, shownAtFirst)),
      entries.length > shownAtFirst && h("details", { class: "more" }, h("summary", {}, `${count(entries.length - shownAtFirst, "older entry", "older entries")}`), rows(entries.slice(shownAtFirst))),
    ].filter(Boolean));
  }

  // The plan that stands is older than the journal: made again for this morning, it is put beside it.
  drawSince() {
    const { since_plan: since, changed_since_plan: changed, today } = this.form, { job } = this;
    const parts = [], older = since === null || since > 0 || changed.length > 0;
    if (since > 0) parts.push(h("p", {}, h("strong", {}, `${count(since, "entry", "entries")} since this plan. `), "The plan that stands does not know of them."));
    if (since === null) parts.push(h("p", {}, "The plan that stands was made from another journal."));
    if (changed.length > 0) parts.push(h("p", {}, `Changed since this plan: ${listWords(changed)}.`));
    if (job === null || isOver(job)) {
      if (older) parts.push(this.planWays(today));
    } else {
      parts.push(h("p", { role: "status" }, job.stage === "planning" ? "The plan is being made again: every year, every method, the bound and the check." : "Reading the farm and its journal."),
        onItsWay(job, "planning", "How far planning again is", ask.giveUp));
    }
    if (job?.stage === "planned") this.made = job.id;
    if (this.made !== null && (job === null || isOver(job))) parts.push(h("p", {}, h("a", { class: "pick write", href: `/?plan=${this.made}` }, "Show the plan made again beside the one that stands")), this.standingOf(this.made).box);
    if (job?.stage === "given_up") parts.push(h("p", {}, "Stopped. The plan that stands is as it was."));
    if (job?.stage === "refused" || job?.stage === "failed") parts.push(issueList({ message: job.fault || "It was not planned again.", issues: job.issues }));
    if (this.trouble) parts.push(issueList(this.trouble));
    redraw(this.since, ...parts);
  }

  standingOf(plan) {
    if (this.standing?.plan !== plan) this.standing = new Standing(plan);
    return this.standing;
  }

  // What was done today counts from tomorrow morning on.
  planWays(today) {
    const way = (morning, words, more) => h("p", {}, h("button", { type: "button", class: "pick", onclick: () => this.planAgain(morning) }, words), h("small", { class: "block" }, more));
    const tomorrow = laterBy(today, 1), worked = this.form.entries.some((e) => e.done_on === today);
    return h("div", {}, way(today, "Plan again from this morning", `As of ${dateWords(today, true)}: what was done before today is done${worked ? "; today’s entries are not in it" : ""}.`),
      worked && way(tomorrow, "Plan again from tomorrow morning", `As of ${dateWords(tomorrow, true)}: what was done today is done too. It needs today’s weather.`));
  }

  async planAgain(morning) {
    await putQuestion(this, () => ask.planFrom(morning));
    this.drawSince();
  }

  refusal(note) {
    return h("div", {}, h("p", { class: "said" }, lineOf(note.words)), issueList(note.refused), h("div", { class: "picks columns-2" },
      h("button", { type: "button", class: "pick", onclick: () => this.sheet.open({ mend: { ...note, typed: typedLine(note.words), fresh: newId() } }) }, "Mend it"),
      h("button", { type: "button", class: "pick", onclick: () => {
        this.waiting.drop(note.id);
        this.sheet.box.close();
      } }, "Throw it away")));
  }

  drawWaiting() {
    const list = this.waiting.list, on = list.filter((n) => !n.refused), refused = list.filter((n) => n.refused);
    const words = [on.length > 0 && `${on.length} not yet written down`, refused.length > 0 && `${refused.length} refused`].filter(Boolean).join(", ");
    const why = this.waiting.trouble?.code === "no-key" ? "The server was started anew: open the address that it printed, on this phone. They are kept until then." : "They are kept on this phone and go in by themselves once the server answers.";
    redraw(this.waits, ...(list.length === 0 ? [] : [h("div", { class: "waits" }, h("h3", {}, words),
      on.length > 0 && h("p", {}, why), on.length > 0 && h("ul", {}, on.map((n) => h("li", {}, h("span", { class: "said" }, lineOf(n.words)), ` ${dateWords(n.done_on)}, ${n.by}`))),
      refused.map((n) => this.refusal(n)))]));
    redraw(this.bar, this.opener(), h("span", { class: "how-many", role: "status" }, words));
  }

  async readAgain() {
    const form = await ask.journal().catch(() => null);
    if (!form) return;
    this.form = form;
    this.readAt = new Date();
    this.draw();
  }

  happened(type, data) {
    if (type === "journal") return this.readAgain();
    this.standing?.happened(data);
    if (!data.id.startsWith("morning-") || (this.job && data.id !== this.job.id)) return null;
    this.job = { ...(this.job ?? { issues: [] }), ...data };
    return this.drawSince();
  }

  // The server answers (again).
  found() {
    this.waiting.flush();
    this.readAgain();
  }
}

// {part, bar, happened, found, mount}, or a part that says why the journal cannot be read.
export async function journalPart(model, state) {
  const lead = "What was really done and seen, newest first. It goes into the farm’s journal as it is said here.";
  let form = null;
  try {
    form = await ask.journal();
  } catch (error) {
    return { part: section("journal", "Written down", null, issueList(error)), happened: () => {}, found: () => {}, mount: () => {} };
  }
  const journal = new Journal(model, form, state);
  return {
    part: section("journal", "Written down", lead, h("div", { class: "opener" }, journal.opener()), journal.waits, journal.since, journal.list),
    happened: (type, data) => journal.happened(type, data),
    found: () => journal.found(),
    mount: () => {
      document.body.append(journal.bar, journal.sheet.box);
      document.body.classList.add("has-write-bar");
      setInterval(() => journal.waiting.flush(), patience);
      journal.waiting.flush();
    },
  };
}
