// Plans with other weights, from the server: shown when they are there, made when asked for.

import { ask } from "./ask.mjs";
import { isOver, issueList } from "./answer.mjs";
import { h, redraw, section } from "./dom.mjs";
import { tradeOffsSection, weightWords } from "./trade_offs.mjs";

const take = (folder) => { location.href = `/?plan=weighed-${encodeURIComponent(folder)}`; };

// The part, and what it makes of what happens on the server.
export async function weighPart(model, state) {
  const found = state.weighed ? await ask.tradeOffs().catch(() => null) : null;
  if (found) return { part: tradeOffsSection(model, found, take), happened: () => {}, titleOf: (folder) => {
    const plan = found.plans.find((p) => p.folder === folder);
    return plan ? weightWords(model, plan) : folder;
  } };
  const box = h("div", { "aria-live": "polite" });
  const part = section("trade-offs-part", "What else a plan can weigh", "Whole plans of this farm that set more store by sure seedbeds, by the air or by straw sold. A plan that another beats in everything is left out. Working them out takes some minutes.", box);
  let job = null;
  const begin = async () => {
    try {
      job = { id: (await ask.weigh()).job, stage: "waiting", share: 0, issues: [] };
      draw();
    } catch (error) {
      box.replaceChildren(issueList(error));
    }
  };
  function draw() {
    if (job === null || job.stage === "given_up") return box.replaceChildren(h("p", {}, h("button", { type: "button", class: "main", onclick: begin }, "Work them out")));
    if (job.stage === "planned") return ask.tradeOffs().then((plans) => part.replaceWith(tradeOffsSection(model, plans, take)));
    if (isOver(job)) return box.replaceChildren(issueList({ message: job.fault || "Nothing was worked out.", issues: job.issues }));
    return redraw(box, h("p", {}, h("progress", { max: 1, value: job.share, "aria-label": "How far they are" }), " ", h("button", { type: "button", onclick: () => ask.giveUp(job.id) }, "Stop")));
  }
  draw();
  return { part, happened: (data) => {
    if (job === null || data.id !== job.id) return;
    job = { ...job, ...data };
    draw();
  } };
}
