// The page: reads the plan that it carries and puts the parts in.

import { againSection } from "./again.mjs";
import { ask } from "./ask.mjs";
import { drawAll, h } from "./dom.mjs";
import { head } from "./head.mjs";
import { cashSection } from "./cash.mjs";
import { backSection, cautionSection } from "./back.mjs";
import { combineSection } from "./combine.mjs";
import { hoursSection } from "./hours.mjs";
import { forgetAll, makeAll, makeNow } from "./later.mjs";
import { liveParts, waitForPlan } from "./live.mjs";
import { mapSection } from "./map.mjs";
import { patternStore } from "./methods.mjs";
import { modelOf } from "./model.mjs";
import { datesSection, othersSection } from "./others.mjs";
import { addPasses } from "./passes.mjs";
import { riskSection } from "./risk.mjs";
import { seasonSection } from "./season.mjs";
import { sheetSection } from "./sheet.mjs";
import { soFarSection } from "./so_far.mjs";
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
  // Drawings are made as wide as the paper, so that their letters keep their size.
  const asWideAs = (width, letters) => {
    document.getElementById("page").style.width = width;
    document.documentElement.style.fontSize = letters;
  };
  window.addEventListener("beforeprint", () => {
    makeAll();
    closed = [...document.querySelectorAll("details:not([open], .on-demand)")];
    closed.forEach((d) => { d.open = true; });
    asWideAs("21cm", "9pt");
    drawAll();
    makeAll();
    asWideAs("", "");
  });
  window.addEventListener("afterprint", () => {
    closed.forEach((d) => { d.open = false; });
    drawAll();
  });
}

// `served`: trade-offs are left to the server's part.
function build(model, served) {
  forgetAll();
  const where = mapSection(model, (field) => openSheet(model.sheetId(field)));
  const season = seasonSection(model);
  const parts = [againSection(model), soFarSection(model), where.part, season.part, datesSection(model), othersSection(model), riskSection(model), sheetSection(model), combineSection(model), workSection(model), hoursSection(model), worthSection(model), cashSection(model), served ? null : tradeOffsSection(model, read("trade-offs")), otherPlanSection(model), cautionSection(model), backSection(model)].filter(Boolean);
  document.getElementById("page").classList.toggle("large", model.large);
  document.getElementById("page").replaceChildren(patternStore(model.plan), head(model), contents(parts), h("main", {}, parts));
  where.mount();
  season.mount();
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
  return where;
}

// What a server adds to a page that stands already.
async function addLive(model, state, planId, where) {
  const live = await liveParts(model, state, planId);
  const main = document.querySelector("main");
  if (live.note) document.querySelector("header.opening").before(live.note);
  main.prepend(...live.first.filter(Boolean));
  document.getElementById("cautions").before(live.tradeOffs, live.last);
  document.querySelector("nav").replaceWith(contents([...main.children]));
  addPasses(model, where.map(), document.getElementById("map"));
  live.mount();
}

async function start() {
  const plan = read("plan"), served = read("served");
  const model = plan && modelOf(plan, read("shapes"));
  const where = model && build(model, served !== null);
  if (!served) return;
  const state = await ask.state();
  if (model) await addLive(model, state, served.plan, where);
  else waitForPlan(document.getElementById("page"), state);
}

start();
