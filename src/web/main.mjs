// The page: reads the plan that it carries and puts the parts in.

import { ask } from "./ask.mjs";
import { drawAll, h } from "./dom.mjs";
import { head } from "./head.mjs";
import { cashSection } from "./cash.mjs";
import { backSection, cautionSection } from "./back.mjs";
import { combineSection } from "./combine.mjs";
import { hoursSection } from "./hours.mjs";
import { forgetAll, makeAll, makeNow } from "./later.mjs";
import { liveSection, waitForPlan } from "./live.mjs";
import { mapSection } from "./map.mjs";
import { patternStore } from "./methods.mjs";
import { modelOf } from "./model.mjs";
import { datesSection, othersSection } from "./others.mjs";
import { riskSection } from "./risk.mjs";
import { seasonSection } from "./season.mjs";
import { sheetSection } from "./sheet.mjs";
import { tradeOffsSection } from "./trade_offs.mjs";
import { otherPlanSection } from "./two_plans.mjs";
import { workSection } from "./worklist.mjs";
import { worthSection } from "./worth.mjs";

const read = (id) => JSON.parse(document.getElementById(id)?.textContent ?? "null");

function openSheet(id) {
  const sheet = document.getElementById(id);
  if (!(sheet instanceof HTMLDetailsElement)) return;
  makeNow(sheet);
  sheet.open = true;
  sheet.scrollIntoView({ block: "start" });
  sheet.querySelector("summary").focus({ preventScroll: true });
}

function contents(parts) {
  return h("nav", { "aria-label": "Parts of this page" }, h("ul", {}, parts.map((part) =>
    h("li", {}, h("a", { href: `#${part.id}` }, part.querySelector("h2").textContent)))));
}

function openAllForPrint() {
  let closed = [];
  window.addEventListener("beforeprint", () => {
    makeAll();
    closed = [...document.querySelectorAll("details:not([open], .on-demand)")];
    closed.forEach((d) => { d.open = true; });
    drawAll();
  });
  window.addEventListener("afterprint", () => closed.forEach((d) => { d.open = false; }));
}

// `live`: what a server adds; null on a page from the disk.
function build(model, live) {
  forgetAll();
  const where = mapSection(model, (field) => openSheet(model.sheetId(field)));
  const season = seasonSection(model);
  const parts = [live?.part, where.part, season.part, datesSection(model), othersSection(model), riskSection(model), sheetSection(model), combineSection(model), workSection(model), hoursSection(model), worthSection(model), cashSection(model), tradeOffsSection(model, read("trade-offs")), otherPlanSection(model), cautionSection(model), backSection(model)].filter(Boolean);
  document.getElementById("page").classList.toggle("large", model.large);
  document.getElementById("page").replaceChildren(...[patternStore(model.plan), live?.note, head(model), contents(parts), h("main", {}, parts)].filter(Boolean));
  where.mount();
  season.mount();
  live?.mount();
  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a[href^='#sheet-']");
    if (link) {
      event.preventDefault();
      history.replaceState(null, "", link.getAttribute("href"));
      openSheet(link.getAttribute("href").slice(1));
    }
  });
  if (location.hash.startsWith("#sheet-")) openSheet(location.hash.slice(1));
  openAllForPrint();
}

async function start() {
  const plan = read("plan");
  if (!document.getElementById("served")) return build(modelOf(plan, read("shapes")), null);
  const state = await ask.state();
  if (plan === null) return waitForPlan(document.getElementById("page"), state);
  const model = modelOf(plan, read("shapes"));
  return build(model, liveSection(model, state, read("served").plan));
}

start();
