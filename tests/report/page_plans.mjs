// Trade-offs in the page, and a second plan beside the first.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { openPage, scriptOf } from "./page_open.mjs";

function sampleTradeOffs(plan) {
  const methods = plan.fields.map((f) => ({ field: f.id, method: f.chosen.method }));
  const changed = methods.map((m, i) => (i === 0 ? { ...m, method: plan.methods.find((x) => x.id !== m.method).id } : m));
  const one = (name, k, of) => ({
    name, folder: `plans/${k}`, dominated: false, weights: { straw_per_t: 0, late_times: 1 + k, co2e_per_t: 0 }, cost: plan.objective.plan * (1 + 0.1 * k), cost_per_ha: plan.objective.plan_per_ha, chance: 0.7 + 0.08 * k,
    fields_below_wanted: 2 - k, co2e_t: 900 - 150 * k, baled_t: 300 + 90 * k, burned_ha: 12.5, canal_m3: 1000, fields_unlike_base: k, methods: of, audit: { ok: true, count: 0, checks: 10 },
  });
  return { schema: "aftercut-trade-offs-1", version: plan.version, seed: plan.seed, farm: { name: plan.farm.name, units: plan.farm.units, currency: plan.farm.currency, as_of: plan.farm.as_of },
    years: plan.weather.years, shown_years: plan.weather.shown_years, searched: 5, found_twice: 1, dominated_left_out: 1, plans: [one("base", 0, methods), one("surer", 1, changed), one("cleaner", 2, changed)] };
}

async function tradeOffs(browser, folder, plan) {
  const html = await readFile(path.join(folder, "report.html"), "utf8");
  const file = path.join(folder, "with_trade_offs.html");
  const told = sampleTradeOffs(plan);
  await writeFile(file, html.replace("<script>", () => `<script type="application/json" id="trade-offs">${JSON.stringify(told).replace(/</g, "\\u003c")}</script>\n<script>`));
  const { context, page, trouble } = await openPage(browser, file, { width: 1280 });
  try {
    const points = page.locator("#trade-offs-part .trade-point");
    assert.equal(await points.count(), told.plans.length);
    assert.equal(await page.locator("#trade-offs-part tbody tr").count(), told.plans.length);
    await points.nth(1).focus();
    await page.keyboard.press("Enter");
    assert.equal(await points.nth(1).getAttribute("aria-pressed"), "true");
    assert.match(await page.locator("#trade-offs-part .answer").textContent(), /^2\. late days count 2 times/);
    assert.equal(await page.evaluate(() => document.activeElement.dataset.plan), told.plans[1].folder);
    const high = await points.nth(2).evaluate((e) => e.getBoundingClientRect().top);
    await page.locator("#trade-measure").selectOption("co2e_t");
    assert.ok(await points.nth(2).evaluate((e) => e.getBoundingClientRect().top) > high);
    assert.equal(await page.locator("#trade-offs-part .take").count(), 0);  // nobody takes a plan in a page on the disk
    await page.locator("#trade-offs-part tbody button").nth(2).click();
    assert.match(await page.locator("#trade-offs-part .answer").textContent(), /^3\. late days count 3 times/);
    assert.deepEqual(trouble, []);
  } finally {
    await context.close();
  }
}

// Where somebody takes plans (a served page), the button hands over the folder of the plan that is shown.
async function takenPlan(browser, folder, plan) {
  const told = sampleTradeOffs(plan);
  const { context, page } = await openPage(browser, path.join(folder, "report.html"), { width: 1280 });
  try {
    await page.evaluate(scriptOf('export { tradeOffsSection } from "./trade_offs.mjs"; export { modelOf } from "./model.mjs";', "parts") + ";window.parts = parts;");
    await page.evaluate((tradeOffs) => {
      const read = (id) => JSON.parse(document.getElementById(id).textContent);
      document.querySelector("main").prepend(window.parts.tradeOffsSection(window.parts.modelOf(read("plan"), read("shapes")), tradeOffs, (id) => { window.taken = id; }));
    }, told);
    await page.locator("#trade-offs-part tbody button").nth(1).click();
    await page.locator("#trade-offs-part .take").click();
    assert.equal(await page.evaluate(() => window.taken), told.plans[1].folder);
  } finally {
    await context.close();
  }
}

async function twoPlans(browser, folder, plan, width) {
  const other = structuredClone(plan);
  const field = other.fields.find((f) => f.methods.filter((m) => m.possible).length > 1 && f.chosen.method !== null);
  const was = field.chosen.method;
  field.chosen.method = field.methods.find((m) => m.possible && m.id !== was).id;
  other.objective.plan += 1234;
  other.fields.find((f) => f !== field).id = "elsewhere";
  const { context, page, trouble } = await openPage(browser, path.join(folder, "report.html"), { width });
  try {
    const choose = (name, text) => page.locator("#other-plan").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
    await choose("notes.json", "{}");
    await page.waitForSelector("#two-plans .warning");
    assert.match(await page.locator("#two-plans .warning").textContent(), /notes\.json is not a plan\.json/);
    await choose("plan.json", JSON.stringify(other));
    await page.waitForSelector(".two-plans");
    const changes = page.locator(".two-changes li");
    assert.equal(await changes.count(), 1);
    assert.equal(await changes.getAttribute("data-field"), field.id);
    const text = await page.locator("#two-plans").textContent();
    const name = (id) => plan.methods.find((m) => m.id === id).name;
    assert.ok((await changes.textContent()).toLowerCase().includes(`“${name(field.chosen.method)}” instead of “${name(was)}”`.toLowerCase()));
    assert.ok(text.includes("Only in the other plan: field elsewhere"));
    const row = page.locator("#two-plans tr", { has: page.locator("th", { hasText: "All out of pocket" }) });
    assert.match(await row.locator("td").last().textContent(), /^\+.*1,234/);
    const { scroll, client } = await page.evaluate(() => ({ scroll: document.documentElement.scrollWidth, client: document.documentElement.clientWidth }));
    assert.ok(scroll <= client, `${scroll} px of content in ${client} px`);
    assert.doesNotMatch(text, /undefined|NaN|\bnull\b|\[object/);
    assert.deepEqual(trouble, []);
  } finally {
    await context.close();
  }
}

export function planTests(browser, folder, plan) {
  return [
    { name: "trade-offs: a point and a row for each plan, by the keyboard too", run: () => tradeOffs(browser, folder, plan) },
    { name: "trade-offs: a plan is taken", run: () => takenPlan(browser, folder, plan) },
    ...[1280, 390].map((width) => ({ name: `another plan beside this one, from a file, ${width} px`, run: () => twoPlans(browser, folder, plan, width) })),
  ];
}
