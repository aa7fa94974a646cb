// What a change comes to: words, three columns of figures, how far the whole plan is.

import { h } from "./dom.mjs";
import { chanceWords } from "./words.mjs";

export function issueList(error) {
  return h("div", { class: "warning", role: "alert" }, h("strong", {}, error.message),
    error.issues?.length > 0 && h("ul", {}, error.issues.map((i) => h("li", {}, `${i.place}: found ${i.found}; expected ${i.expected}. ${i.fix}.`))));
}

function row(name, figures, show) {
  return h("tr", {}, h("th", { scope: "row" }, name), figures.map((f) => h("td", {}, show(f))));
}

function figures(model, answer) {
  const { units } = model;
  const three = [answer.before, answer.kept, answer.after];
  return h("div", { class: "scroller", tabindex: 0, role: "region", "aria-label": "Before, plan kept, planned again" }, h("table", { class: "answer-figures" },
    h("thead", {}, h("tr", {}, ["A year’s mean", "Before", "Plan kept", "Planned again"].map((t) => h("th", { scope: "col" }, t)))),
    h("tbody", {},
      row("Cost", three, (f) => units.money(f.cost)),
      row("Ready by planting, by area", three, (f) => chanceWords(f.chance)),
      row("Fields less sure than you asked", three, (f) => String(f.fields_below_wanted)),
      row("Straw baled", three, (f) => units.strawWords(f.baled_t)),
      row("Burned", three, (f) => units.areaWords(f.burned_ha)),
      row(`Canal water, ${units.water}`, three, (f) => units.waterNumber(f.canal_m3)))));
}

const stages = { waiting: "Waiting for the plan before.", reading: "Reading the farm with the changes.", answering: "Looking for a first answer.",
  planning: "The whole plan is being made: every year, every method, the bound and the check.", given_up: "Stopped. Nothing was changed.",
  planned: "The whole plan is made and checked.", refused: "The changes do not go together with the farm.", failed: "This is a fault of aftercut; nothing was changed." };

export const isOver = (job) => ["planned", "refused", "given_up", "failed"].includes(job.stage);

// Puts a question to the server: part.job is its job from then on, or part.trouble why there is none.
export async function putQuestion(part, asking) {
  part.trouble = null;
  try {
    part.job = { id: (await asking()).job, stage: "waiting", share: 0, issues: [] };
  } catch (error) {
    part.trouble = error;
  }
}

// How far a question on its way is, and a way to give it up.
export function onItsWay(job, stage, label, giveUp) {
  return h("p", {}, h("progress", { max: 1, value: job.stage === stage ? job.share : 0, "aria-label": label }), " ", h("button", { type: "button", class: "pick", onclick: () => giveUp(job.id).catch(() => {}) }, "Stop"));
}

// One job as it stands. `show` puts its plan on the page, `stop` gives it up.
export function answerBox(model, job, { show, stop }) {
  const part = job.stage === "answering" ? 0.2 * job.share : job.stage === "planning" ? 0.2 + 0.8 * job.share : job.stage === "planned" ? 1 : 0;
  return h("div", { class: "answer-box" },
    h("p", { class: "stage" }, stages[job.stage], job.fault && ` (${job.fault})`),
    !isOver(job) && h("p", {}, h("progress", { max: 1, value: part, "aria-label": "How far planning again is" }), " ", h("button", { type: "button", onclick: stop }, "Stop")),
    job.issues.length > 0 && issueList({ message: "Nothing was planned.", issues: job.issues }),
    job.answer && h("ul", { class: "answer-words" }, job.answer.words.map((text) => h("li", {}, model.units.told(text)))),
    job.answer && figures(model, job.answer),
    job.stage === "planned" && h("p", {}, h("button", { type: "button", class: "main", onclick: show }, "Show the whole plan")));
}
