// The page at its server: changes, planning again, scenarios on file. Nothing of this is there when the page
// is opened from the disk.

import { aheadPart } from "./ahead.mjs";
import { ask } from "./ask.mjs";
import { answerBox, issueList, isOver } from "./answer.mjs";
import { changeForm, changeWords } from "./change_form.mjs";
import { h, redraw, section } from "./dom.mjs";
import { journalPart } from "./journal.mjs";
import { modelOf } from "./model.mjs";
import { Standing } from "./standing.mjs";
import { takeAwaySection } from "./take_away.mjs";
import { twoPlansSection } from "./two_plans.mjs";
import { weighPart } from "./weigh.mjs";

// Calls on(type, data) for what happens on the server from `after` on; tells lost and found again.
export function listen(after, on, lost) {
  const stream = new EventSource(`/events?after=${after}`);
  for (const type of ["job", "progress", "journal"]) stream.addEventListener(type, (event) => on(type, JSON.parse(event.data)));
  stream.addEventListener("open", () => lost(false));
  stream.addEventListener("error", () => lost(true));
  return stream;
}

const slug = (title) => title.trim().toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "").slice(0, 60);

function changeList(model, changes, remove) {
  if (changes.length === 0) return h("p", { class: "note" }, "No change yet.");
  return h("ul", { class: "changes" }, changes.map((change, i) => h("li", {}, changeWords(model, change), " ",
    h("button", { type: "button", class: "small", "aria-label": `Take out: ${changeWords(model, change)}`, onclick: () => remove(i) }, "Take out"))));
}

function scenarioRow(desk, s) {
  return h("li", {}, h("strong", {}, s.title), h("span", { class: "block dim" }, s.issues.length > 0 ? "This file cannot be read." : s.words || "no change"),
    s.issues.length > 0 && issueList({ message: s.name, issues: s.issues }),
    h("span", { class: "buttons" },
      s.issues.length === 0 && h("button", { type: "button", class: "small", "aria-label": `Take up ${s.title}`, onclick: () => desk.takeUp(s) }, "Take up"),
      h("button", { type: "button", class: "small", "aria-label": `Delete ${s.title}`, onclick: () => desk.drop(s) }, "Delete")));
}

// What is on the desk, and the boxes that show it.
class Desk {
  constructor(model, state) {
    this.model = model;
    this.state = state;
    this.changes = [];
    this.scenario = null;  // taken up: {name, mark, title}
    this.job = state.job?.kind === "again" ? state.job : null;
    this.list = h("div", {});
    this.answer = h("div", { "aria-live": "polite" });
    this.trouble = h("div", {});
    this.kept = h("ul", { class: "scenarios" });
    this.title = h("input", { type: "text", maxlength: 60 });
    this.form = changeForm(model, state, (change) => {
      this.changes = [...this.changes, change];
      this.drawChanges();
    });
    this.drawChanges();
    this.drawJob();
    this.drawKept();
  }

  drawChanges() {
    this.list.replaceChildren(changeList(this.model, this.changes, (i) => {
      this.changes = this.changes.filter((_, k) => k !== i);
      this.drawChanges();
    }));
  }

  drawJob() {
    if (this.job === null) return this.answer.replaceChildren();
    const { id } = this.job;
    return redraw(this.answer, answerBox(this.model, this.job, {
      show: () => { location.href = `/?plan=${id}`; },
      stop: () => this.tried(() => ask.giveUp(id)),
    }));
  }

  drawKept() {
    this.kept.replaceChildren(...(this.state.scenarios.length === 0 ? [h("li", { class: "note" }, "None is kept yet.")] : this.state.scenarios.map((s) => scenarioRow(this, s))));
  }

  async tried(doing) {
    this.trouble.replaceChildren();
    try {
      return await doing();
    } catch (error) {
      this.trouble.replaceChildren(issueList(error));
      return null;
    }
  }

  async planAgain() {
    const unchanged = this.scenario && JSON.stringify(this.scenario.changes) === JSON.stringify(this.changes) ? this.scenario : null;
    this.job = null;
    this.drawJob();
    const begun = await this.tried(() => ask.planAgain(this.changes, unchanged));
    if (begun) this.job = { id: begun.job, stage: "waiting", share: 0, issues: [], answer: null };
    this.drawJob();
  }

  takeUp(scenario) {
    this.scenario = scenario;
    this.changes = scenario.changes;
    this.title.value = scenario.title;
    this.drawChanges();
  }

  async keep() {
    const title = this.title.value.trim();
    const name = slug(title);
    if (name === "") return this.trouble.replaceChildren(issueList({ message: "Give the scenario a name with letters or digits." }));
    const there = this.state.scenarios.find((s) => s.name === name);
    const mark = this.scenario?.name === name ? this.scenario.mark : there?.mark;
    const done = await this.tried(() => ask.keep(name, title, this.changes, mark));
    if (done) this.scenario = { name, title, mark: done.mark, changes: this.changes };
    return this.readAgain();
  }

  async drop(scenario) {
    await this.tried(() => ask.drop(scenario.name, scenario.mark));
    return this.readAgain();
  }

  async readAgain() {
    const state = await ask.state().catch(() => null);
    if (state) this.state = state;
    this.drawKept();
  }

  happened(type, data) {
    if (type === "journal" || !data.id.startsWith("again-") || (this.job && data.id !== this.job.id)) return;
    this.job = { ...(this.job ?? { issues: [], answer: null }), ...data };
    this.drawJob();
  }
}

const weighed = "weighed-", morning = "morning-";

function planTitle(state, weigh, id) {
  if (id.startsWith(weighed)) return weigh.titleOf?.(id.slice(weighed.length)) ?? id;
  return state.plans.find((p) => p.id === id)?.title ?? id;
}

// A line above a plan that is not the one that stands.
function planNote(id, title, standing) {
  if (id === "base") return null;
  const kind = id.startsWith(weighed) ? "A plan with other weights" : id.startsWith(morning) ? "The plan made again" : "A plan under changes";
  return h("div", { class: "warning", role: "note" }, h("strong", {}, kind), `: ${title}. `, h("a", { href: "/" }, "Back to the plan that stands"), standing?.box);
}

// A way from each sheet to the changes.
function addWays(at) {
  for (const sheet of document.querySelectorAll(".field-sheet")) {
    sheet.querySelector(".sheet-body").append(h("p", { class: "change-here" },
      h("button", { type: "button", onclick: () => at(sheet.dataset.field) }, "Change something on this field")));
  }
}

// The plan that stands beside the one on this page; nothing where it is the one on this page.
async function besideBase(model, planId, title) {
  if (planId === "base") return null;
  const base = await ask.plan("base");
  const names = { here: "Stands", there: planId.startsWith(morning) ? "Again" : "Changed", hereLong: "the plan that stands", thereLong: title };
  return section("beside", "Beside the plan that stands", null, twoPlansSection(modelOf(base, model.shapes), model, names));
}

function changePart(desk, lost) {
  return section("again", "Change and plan again", "Put together what changes, then plan again: a first answer comes at once, the whole plan follows. The farm folder’s farm.json stays as it is.",
    lost,
    h("div", { class: "again" },
      h("div", {}, desk.form.form, h("h3", {}, "Changes"), desk.list,
        h("p", {}, h("button", { type: "button", class: "main", onclick: () => desk.planAgain() }, "Plan again")),
        h("details", {}, h("summary", {}, "Scenarios kept in the farm folder"), h("div", { class: "work-box" },
          h("p", {}, h("label", {}, "Keep these changes as ", desk.title), " ", h("button", { type: "button", onclick: () => desk.keep() }, "Keep")), desk.kept))),
      h("div", {}, desk.trouble, desk.answer)));
}

// What the page adds when a server gives it out: a note, parts at its beginning, one instead of the trade-offs of a
// file, and what to do once they are on the page.
export async function liveParts(model, state, planId) {
  const desk = new Desk(model, state);
  const lost = h("p", { class: "warning", role: "status", hidden: true }, "The server does not answer any more. Start aftercut serve again, then load this page again.");
  const part = changePart(desk, lost);
  const journal = await journalPart(model, state);
  const ahead = await aheadPart(model, state);
  const standing = planId.startsWith(morning) ? new Standing(planId) : null;
  const weigh = await weighPart(model, state);
  const title = planTitle(state, weigh, planId);
  const beside = await besideBase(model, planId, title);
  const at = (field) => {
    part.scrollIntoView({ block: "start" });
    desk.form.at(field);
  };
  const happened = (type, data) => {
    desk.happened(type, data);
    journal.happened(type, data);
    if (type === "journal") return;
    weigh.happened(data);
    ahead.happened(data);
    standing?.happened(data);
  };
  return { first: [beside, ahead.part, journal.part, part], tradeOffs: weigh.part, last: takeAwaySection(model, planId), note: planNote(planId, title, standing), mount: () => {
    addWays(at);
    journal.mount();
    listen(state.event, happened, (isLost) => {
      lost.hidden = !isLost;
      if (!isLost) journal.found();
    });
  } };
}

// A server without a plan yet: says how far it is, and loads the page again when it is there.
export function waitForPlan(box, state) {
  const draw = (job) => {
    if (job.stage === "planned") return location.reload();
    const trouble = isOver(job) && issueList({ message: job.fault || "The farm folder has issues; mend them and start the server again.", issues: job.issues ?? [] });
    return box.replaceChildren(h("main", { class: "waiting" }, h("h1", {}, "The plan is being made"),
      h("p", { role: "status" }, job.stage === "reading" ? "Reading the farm." : "Every field, every method, every weather year. The page comes by itself."),
      h("progress", { max: 1, value: job.share ?? 0, "aria-label": "How far the plan is" }), trouble));
  };
  let job = state.job ?? { stage: "waiting", share: 0, issues: [] };
  draw(job);
  listen(state.event, (type, data) => {
    if (type === "journal" || data.id !== "base") return;
    job = { ...job, ...data };
    draw(job);
  }, () => {});
}
