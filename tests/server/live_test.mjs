// The page at its server, in a browser: every flow a grower has there, by mouse and by keyboard alone.
//   node live_test.mjs AFTERCUT SOURCE CHROMIUM SCRATCH [--pictures FOLDER]

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cp, mkdir, readFile, readdir, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { journalTests, withWeatherSoFar } from "./journal_flow.mjs";
import { morningTests } from "./morning_flow.mjs";

const need = createRequire(new URL("../../src/web/package.json", import.meta.url));
const { chromium } = need("playwright-core");
const axe = await readFile(need.resolve("axe-core/axe.min.js"), "utf8");
const [aftercut, source, browserPath, scratch, , pictures] = process.argv.slice(2);

await rm(scratch, { recursive: true, force: true });
const farm = path.join(scratch, "fields", "demo");
const out = path.join(scratch, "out");
await mkdir(scratch, { recursive: true });
await cp(path.join(source, "fields", "demo"), farm, { recursive: true });
await cp(path.join(source, "weather"), path.join(scratch, "weather"), { recursive: true });

const farmText = await withWeatherSoFar(scratch, farm);
let server = null;
async function start(port, key) {
  const more = key ? ["--key", key] : [];
  server = spawn(aftercut, ["serve", farm, "--out", out, "--as-of", "2026-10-12", "--now", "2026-10-20T18:00:00Z", "--port", port, ...more, "--effort", "300", "--bound-rounds", "1", "--one-more", "0"], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((found, lost) => {
    let text = "";
    server.stdout.on("data", (data) => {
      text += data;
      const match = text.match(/Open (http:\S+)/);
      if (match) found(match[1]);
    });
    server.on("exit", (code) => lost(new Error(`the server ended with ${code}`)));
  });
}
const killed = () => new Promise((done) => { server.on("exit", done); server.kill("SIGKILL"); });
const address = await start("0");
const origin = new URL(address).origin;

const browser = await chromium.launch({ executablePath: browserPath, args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });
const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
const trouble = [];
let lost = false;  // the server was ended: failing requests are what is tested
function watch(page) {
  page.on("console", (m) => { if (["error", "warning"].includes(m.type()) && !lost) trouble.push(`console: ${m.text()}`); });
  page.on("pageerror", (e) => trouble.push(`error: ${e.message}`));
  page.on("request", (r) => { if (!r.url().startsWith(origin) && !r.url().startsWith("data:")) trouble.push(`request: ${r.url()}`); });
}
const page = await context.newPage();
watch(page);

const times = {};
const timed = async (name, run) => {
  const began = performance.now();
  await run();
  times[name] = Math.round(performance.now() - began);
};
const button = (name) => page.getByRole("button", { name, exact: true });
const part = page.locator("#again");  // where changes are put together
const kind = () => part.getByLabel("What changes?", { exact: true });
async function put(which, fill = async () => {}) {
  await kind().selectOption(which);
  await fill();
  await button("Add to the changes").click();
}
async function clear() {
  while (await part.locator(".changes button").count() > 0) await part.locator(".changes button").first().click();
}
async function answered() {
  await part.locator(".answer-words").waitFor({ timeout: 60000 });
  return part.locator(".answer-words li").allTextContents();
}
async function whole() {
  await button("Show the whole plan").waitFor({ timeout: 240000 });
}
async function stopped() {
  if (await button("Stop").count() > 0) await button("Stop").first().click();
  await part.getByText("Stopped. Nothing was changed.").waitFor();
}

const tests = [];
const test = (name, run) => tests.push({ name, run });

test("the opened address waits for the plan, shows it, and keeps its key to itself", async () => {
  await page.goto(address);
  await page.locator("#again").waitFor({ timeout: 240000 });
  assert.equal(page.url(), `${origin}/`);
  const [cookie] = await context.cookies();
  assert.ok(cookie.httpOnly && cookie.sameSite === "Strict");
  assert.equal(await page.evaluate(() => document.cookie), "");
});

test("a page without the key is turned away in words", async () => {
  const stranger = await browser.newContext();
  const other = await stranger.newPage();
  const reply = await other.goto(`${origin}/`);
  assert.equal(reply.status(), 401);
  assert.match(await reply.text(), /with its key/);
  await stranger.close();
});

test("a warm server shows the page quickly", async () => {
  await timed("first view", async () => {
    await page.reload({ waitUntil: "commit" });
    await page.locator("#season .strip").first().waitFor();
  });
  await page.locator("#again").waitFor();
});

test("a machine out of work: a first answer, then the whole plan, beside the one that stands", async () => {
  await put("out_of_work", async () => part.getByLabel("Who", { exact: true }).selectOption("T4"));
  assert.match(await part.locator(".changes li").textContent(), /not there 12 Oct to 18 Oct/);
  await timed("first answer", async () => {
    await button("Plan again").click();
    await answered();
  });
  const words = await answered();
  assert.match(words.join(" "), /a year costs \$[\d,]+/);
  assert.equal(await part.locator(".answer-figures tbody tr").count(), 6);
  await whole();
  await button("Show the whole plan").click();
  await page.getByText("A plan under changes").waitFor();
  await page.locator("#beside .two-figures").first().waitFor();
  await page.getByRole("link", { name: "Back to the plan that stands" }).click();
  await page.locator("#again").waitFor();
  assert.equal(await page.getByText("A plan under changes").count(), 0);
});

test("every kind of change can be put together, and goes through", async () => {
  await clear();
  await put("fix_method", async () => { await part.getByLabel("Field", { exact: true }).selectOption("B1"); await part.getByLabel("Method", { exact: true }).selectOption("chop_disk"); });
  await put("bar_method", async () => { await part.getByLabel("Field", { exact: true }).selectOption("B2"); await part.getByLabel("Not", { exact: true }).selectOption("burn"); await part.getByLabel("Because", { exact: true }).fill("wind <b>"); });
  const standing = await page.evaluate(() => JSON.parse(document.getElementById("plan").textContent).fields.filter((f) => !f.cut).length);
  if (standing > 0) await put("move_harvest", async () => part.getByLabel("Cut on", { exact: true }).fill("2026-10-25"));
  await put("move_planting", async () => part.getByLabel("Seedbed wanted by", { exact: true }).fill("2027-05-08"));
  await put("set_price", async () => { await part.getByLabel("Price of", { exact: true }).selectOption("straw"); await part.getByLabel("New price", { exact: true }).fill("35 USD/t"); });
  await put("want_chance", async () => part.getByLabel("Ready by planting in so many years of 100", { exact: true }).fill("75"));
  const list = await part.locator(".changes li").allTextContents();
  assert.equal(list.length, standing > 0 ? 6 : 5);
  assert.ok(list.some((text) => text.includes("wind <b>")));
  await button("Plan again").click();
  const words = await answered();
  assert.ok(words.length >= 3, words.join("\n"));
  await stopped();
});

test("changes that cannot be are told with place and mend", async () => {
  await clear();
  await put("set_price", async () => { await part.getByLabel("Price of", { exact: true }).selectOption("diesel"); await part.getByLabel("New price", { exact: true }).fill("much"); });
  await button("Plan again").click();
  await part.locator(".warning li").first().waitFor();
  assert.match(await part.locator(".warning li").first().textContent(), /diesel.*much/);
});

test("changes are kept as a scenario, taken up, not written over unseen, deleted", async () => {
  await clear();
  await put("want_chance");
  await part.getByText("Scenarios kept in the farm folder").click();
  await part.getByLabel("Keep these changes as", { exact: true }).fill("A bit surer");
  await button("Keep").click();
  await part.locator(".scenarios strong").first().waitFor();
  assert.deepEqual(await readdir(path.join(farm, "scenarios")), ["a-bit-surer.json"]);
  assert.equal(JSON.parse(await readFile(path.join(farm, "scenarios", "a-bit-surer.json"), "utf8")).changes[0].change, "want_chance");
  assert.equal(await readFile(path.join(farm, "farm.json"), "utf8"), farmText);
  await clear();
  await button("Take up A bit surer").click();
  assert.equal(await part.locator(".changes li").count(), 1);
  await button("Delete A bit surer").click();
  await part.getByText("None is kept yet.").waitFor();
  assert.deepEqual(await readdir(path.join(farm, "scenarios")), []);
});

test("a sheet leads to the changes, with its field chosen", async () => {
  const sheet = page.locator(".field-sheet[data-field=C2]");
  await sheet.locator("summary").first().click();
  await sheet.getByRole("button", { name: "Change something on this field" }).click();
  assert.equal(await kind().inputValue(), "fix_method");
  assert.equal(await part.getByLabel("Field", { exact: true }).inputValue(), "C2");
});

test("a machine's passes are laid over the map, and taken off", async () => {
  await page.getByLabel("Passes of:").selectOption("disk 1");
  await page.locator("#map path.pass-line").first().waitFor({ timeout: 30000 });
  assert.ok(await page.locator("#map path.pass-line").count() > 200);
  assert.match(await page.locator("#where").textContent(), /[\d,]+ passes; dashed/);
  if (pictures) await page.locator("#where").screenshot({ path: path.join(pictures, "passes.png") });
  await page.getByLabel("Passes of:").selectOption("");
  assert.equal(await page.locator("#map path.pass-line").count(), 0);
});

test("files and sheets come from the server", async () => {
  const links = await page.locator("#take-away .take-away a").evaluateAll((all) => all.map((a) => a.href));
  assert.ok(links.length >= 12);
  for (const url of links) {
    const reply = await context.request.get(url);
    assert.equal(reply.status(), 200, url);
    assert.ok((await reply.body()).length > 200, url);
  }
  await page.locator("#take-away").getByLabel("Work lists and combine card in").selectOption("es");
  const spanish = await page.locator("#take-away a", { hasText: "Work lists" }).getAttribute("href");
  assert.match(await (await context.request.get(origin + spanish)).text(), /lang="es"/);
  const [sheet] = await Promise.all([context.waitForEvent("page"), button("Open the sheet").click()]);
  await sheet.waitForLoadState();
  assert.match(await sheet.title(), /\S/);
  await sheet.close();
});

test("by keyboard alone: choose, add, plan again, stop", async () => {
  await page.reload();
  await page.locator("#again").waitFor();
  await kind().focus();
  await page.keyboard.type("Want");
  for (let i = 0; i < 3; i += 1) await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Add to the changes");
  await page.keyboard.press("Enter");
  assert.equal(await part.locator(".changes li").count(), 1);
  for (let i = 0; i < 2; i += 1) await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Plan again");
  await page.keyboard.press("Enter");
  await button("Stop").waitFor();
  await button("Stop").focus();
  const share = () => part.locator("progress").evaluate((bar) => bar.value);
  const shown = await share();
  while (await share() === shown) await page.waitForTimeout(50);  // until it has been drawn anew
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Stop");
  await page.keyboard.press("Enter");
  await part.getByText("Stopped. Nothing was changed.").waitFor();
});

const faults = (of) => of.evaluate(`(async () => { ${axe}; return (await axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] })).violations.map((v) => v.id + ": " + v.nodes.slice(0, 3).map((n) => n.target.join(" ")).join(", ")); })()`);

for (const scheme of ["light", "dark"])
  test(`nothing stands in the way of a reader with other means (${scheme})`, async () => {
    await page.emulateMedia({ colorScheme: scheme });
    assert.deepEqual(await faults(page), []);
    await page.emulateMedia({ colorScheme: "light" });
  });

test("on a phone the page does not scroll sideways", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.waitForTimeout(300);
  const { scroll, client } = await page.evaluate(() => ({ scroll: document.documentElement.scrollWidth, client: document.documentElement.clientWidth }));
  assert.ok(scroll <= client, `${scroll} px of content in ${client} px`);
  if (pictures) await part.screenshot({ path: path.join(pictures, "again-phone.png") });
  await page.setViewportSize({ width: 1280, height: 900 });
});

const season = { test, context, page, watch, origin, farm, out, faults, pictures, kill: killed, losing: (is) => { lost = is; },
  restart: () => start(new URL(origin).port, new URL(address).searchParams.get("key")) };
journalTests(season);
morningTests(season);

test("a server that is told to end does so, and the page says that it is gone", async () => {
  await button("Plan again").click();
  lost = true;
  const ended = new Promise((done) => { server.removeAllListeners("exit"); server.on("exit", (code) => done(code)); });
  server.kill("SIGTERM");
  assert.equal(await ended, 0);
  await page.getByText("The server does not answer any more").waitFor();
  JSON.parse(await readFile(path.join(out, "plan.json"), "utf8"));
});

let failed = 0;
for (const { name, run } of tests) {
  try {
    await run();
    assert.deepEqual(trouble, []);
    console.log(`ok: ${name}`);
  } catch (error) {
    failed += 1;
    trouble.length = 0;
    console.log(`FAILED: ${name}\n${error.message}`);
  }
}
console.log(`milliseconds: ${JSON.stringify(times)}`);
await browser.close();
server.kill("SIGKILL");
process.exit(failed === 0 ? 0 : 1);
