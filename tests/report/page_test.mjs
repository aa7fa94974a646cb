// Opens report.html from the disk in a browser with the network off and looks at what a reader would see.
//   node page_test.mjs FOLDER CHROMIUM [--pictures FOLDER]

import assert from "node:assert/strict";
import { mkdir, readFile, stat } from "node:fs/promises";
import path from "node:path";
import { axeTests, keyboardTest } from "./page_access.mjs";
import { largeTest } from "./page_large.mjs";
import { launch, openPage } from "./page_open.mjs";
import { pictureTests } from "./page_pictures.mjs";
import { planTests } from "./page_plans.mjs";

const [folder, browserPath, , pictures] = process.argv.slice(2);
const page_file = path.resolve(folder, "report.html");
const plan = JSON.parse(await readFile(path.resolve(folder, "plan.json"), "utf8"));
const browser = await launch(browserPath);
const open = (width, colorScheme = "light") => openPage(browser, page_file, { width, colorScheme });

const tests = [];
const test = (name, run) => tests.push({ name, run });

test("the map shows every field that has an outline, with its number", async (page) => {
  const shapes = JSON.parse(await page.locator("#shapes").textContent());
  const drawn = shapes.fields.features.map((f) => f.properties.id);
  assert.equal(await page.locator("#map path.field-shape").count(), drawn.length);
  assert.deepEqual((await page.locator("#map .field-number").allTextContents()).sort(), [...drawn].sort());
  for (const box of await page.locator("#map path.field-shape").evaluateAll((all) => all.map((e) => e.getBoundingClientRect().width))) assert.ok(box > 4);
  if ((await page.viewportSize()).width > 500) assert.equal(await page.locator("#map .field-number .tucked").count(), 0);
  const missing = plan.fields.filter((f) => !drawn.includes(f.id));
  const note = await page.locator("#where").textContent();
  for (const f of missing) assert.match(note, new RegExp(`Not on the map[^.]*: field[^.]*\\b${f.id}\\b`));
});

test("every field has a strip and a sheet", async (page) => {
  const ids = plan.fields.map((f) => f.id).sort();
  const of = async (selector) => (await page.locator(selector).evaluateAll((all) => all.map((e) => e.dataset.field))).sort();
  assert.deepEqual(await of("#season .strip"), ids);
  assert.deepEqual(await of("#sheets .field-sheet"), ids);
  assert.equal(await page.locator("#season .strip svg[role=img]").count(), ids.length);
});

test("the table of every figure tells air, next crop and birds with their ranges", async (page) => {
  const field = plan.fields.find((f) => f.next_use === "rice" && f.methods.some((m) => m.possible));
  const open = field.methods.filter((m) => m.possible);
  const table = page.locator(`#sheets .field-sheet[data-field="${field.id}"] .figures table`);
  const row = (name) => table.locator("tr", { has: page.locator("th", { hasText: name }) });
  const cells = await row("All as CO₂ equivalent").locator("td").allTextContents();
  assert.equal(cells.length, open.length);
  for (const text of cells) assert.match(text, /^[\d,]+ \([\d,]+ – [\d,]+\)$/);
  const index = await row("Disease carried over").locator("td").allTextContents();
  for (const text of index) assert.match(text, /^[01]\.\d\d – [01]\.\d\d – [01]\.\d\d$/);
  const notes = await page.locator(`#sheets .field-sheet[data-field="${field.id}"] .figures .note`).textContent();
  for (const words of plan.environment.words) assert.ok(notes.includes(words));
  assert.ok(notes.includes(plan.environment.warming_set));
});

test("every pass of the schedule is a mark on its strip", async (page) => {
  const passes = new Set(plan.schedule.filter((r) => !r.stands_by).map((r) => [r.field, r.fell_back, r.step, r.pass, r.operation].join("\n")));
  assert.equal(await page.locator("#season .strip .mark").count(), passes.size);
});

test("every method of a field stands in its sheet, with its reasons when it is ruled out", async (page) => {
  for (const field of plan.fields) {
    const sheet = page.locator(`.field-sheet[data-field="${field.id}"]`);
    assert.equal(await sheet.locator(".option").count(), field.methods.length);
    const text = await sheet.textContent();
    for (const m of field.methods) for (const why of m.why_not) assert.ok(text.includes(why), `${field.id} ${m.id}: ${why}`);
  }
});

test("a press on a field opens its sheet", async (page) => {
  const first = page.locator("#map .field-number").first();
  const id = await first.textContent();
  await first.focus();
  await page.keyboard.press("Enter");
  await page.waitForTimeout(50);
  assert.equal(await page.locator(`.field-sheet[data-field="${id}"]`).getAttribute("open"), "");
});

test("the strips can be put in another order", async (page) => {
  await page.locator("#strip-order").selectOption("field");
  const ids = await page.locator("#season .strip").evaluateAll((all) => all.map((e) => e.dataset.field));
  assert.deepEqual(ids, plan.fields.map((f) => f.id));
});

test("the work list has a row a stretch, and fewer for one person", async (page) => {
  const rows = () => page.locator("#work tbody tr:not(.group)").count();
  assert.equal(await rows(), plan.schedule.length);
  const who = plan.schedule.find((r) => r.operators.length > 0)?.operators[0];
  if (who === undefined) return;
  await page.locator("#work-who").selectOption(who);
  assert.equal(await rows(), plan.schedule.filter((r) => r.operators.includes(who)).length);
});

test("each group of fields that hang on others has its card, its week and its fields", async (page) => {
  const cards = page.locator("#others .turn");
  assert.equal(await cards.count(), plan.fall_backs.length);
  for (const [i, group] of plan.fall_backs.entries()) {
    const text = await cards.nth(i).textContent();
    assert.match(text, group.start_by === null ? /Too late, even at once/ : /by the week of \d{1,2} [A-Z][a-z]{2}/);
    assert.deepEqual([...new Set(await cards.nth(i).locator("a").allTextContents())].sort(), [...group.fields].sort());
    assert.equal(await cards.nth(i).locator(".sign").count(), group.late ? 1 : 0);
    if (group.start_by !== null) assert.ok(!text.includes(`by ${group.start_by}`));
  }
});

test("a plan made again tells every day that moves, with both dates; odd entries stand among what was done", async (page) => {
  const { again, so_far: so } = plan, lines = page.locator("#again-words .day-moves > li");
  assert.equal(await lines.count(), again ? again.days.length : 0);
  for (const [i, { field, first, ready, before }] of (again ? again.days : []).entries()) {
    const text = await lines.nth(i).textContent();
    assert.ok(text.includes(`Field ${field}`) && before.every((id) => text.includes(id)), text);
    for (const iso of [first.stood, first.now, ready.stood, ready.now].filter(Boolean)) assert.ok(new RegExp(`\\b${+iso.slice(8)} [A-Z][a-z]{2}`).test(text), `${iso}: ${text}`);
  }
  const odd = await page.locator("#so-far .doubts li").allTextContents();
  assert.deepEqual(odd.map((text) => text.toLowerCase()), (so ? so.doubts : []).map((d) => `${d.words}.`.toLowerCase()));
});

test("every date to keep is a row", async (page) => {
  assert.equal(await page.locator("#dates tbody tr").count(), plan.dates_to_keep.length);
});

test("the months of the money add up to what the plan costs", async (page) => {
  if (plan.cash.length === 0) return;
  assert.equal(await page.locator("#cash tbody tr").count(), plan.cash.length + 1);
  const sum = plan.cash.reduce((all, m) => all + Object.values(m.parts).reduce((a, b) => a + b, 0), 0);
  assert.ok(Math.abs(sum - plan.objective.plan) < 0.005, `${sum} against ${plan.objective.plan}`);
  const shown = await page.locator("#cash tbody tr.sum td").first().textContent();
  assert.equal(shown.replace(/,/g, ""), String(Math.round(plan.objective.plan)));
});

test("what one more is worth: a row for each thing that can be told, most first", async (page) => {
  if (!plan.one_more_worth) {
    assert.equal(await page.locator("#one-more").count(), 0);
    return;
  }
  const told = plan.one_more_worth.things.filter((t) => t.told).sort((a, b) => b.worth - a.worth);
  assert.equal(await page.locator("#one-more tbody tr").count(), told.length);
  if (told.length === 0) return;
  const shown = await page.locator("#one-more tbody tr").first().locator("td.chosen").textContent();
  assert.equal(shown.replace(/[^0-9]/g, ""), String(Math.round(told[0].worth)));
  const strips = told.filter((t) => t.weeks.some((w) => w.worth > 2 * w.standard_error && w.worth >= 1)).length;
  assert.equal(await page.locator("#one-more svg[role=img]").count(), strips);
});

test("how sure: a row for each field that is due, both folds marked, and what stands in the way", async (page) => {
  const { target } = plan;
  const rows = page.locator("#sure tbody tr");
  assert.equal(await rows.count(), target.fields.length);
  for (const [i, wish] of target.fields.entries()) {
    const cells = await rows.nth(i).locator("td").allTextContents();
    assert.ok(cells[1].startsWith(`${wish.ready_searched} of ${target.search_years}`) && cells[1].endsWith(wish.met_searched ? "✓" : "!"), cells[1]);
    assert.ok(cells[2].startsWith(`${wish.ready_shown} of ${target.shown_years}`) && cells[2].endsWith(wish.met_shown ? "✓" : "!"), cells[2]);
  }
  const ways = page.locator("#sure .in-the-way li");
  assert.equal(await ways.count(), target.in_the_way.length);
  for (const [i, way] of target.in_the_way.entries()) {
    const text = await ways.nth(i).textContent();
    for (const words of way.words) assert.ok(text.includes(words), words);
  }
});

test("everything that can be pressed has a name", async (page) => {
  const nameless = await page.evaluate(() => [...document.querySelectorAll("a, button, select, summary, [role=button]")]
    .filter((e) => !(e.textContent.trim() || e.getAttribute("aria-label") || e.title || e.labels?.length)).map((e) => e.outerHTML.slice(0, 120)));
  assert.deepEqual(nameless, []);
});

test("nothing reads undefined, NaN or null", async (page) => {
  const text = await page.evaluate(() => document.getElementById("page").textContent);
  assert.doesNotMatch(text, /undefined|NaN|\bnull\b|\[object/);
});

test("no sentence joins a burn with a granting word", async (page) => {
  const text = await page.evaluate(() => [...document.querySelectorAll("#page p, #page li, #page td, #page th, #page summary, #page dd")].map((e) => e.textContent).join("\n"));
  const found = text.split(/[.;!?\n]/).filter((t) => /burn/i.test(t) && /\b(allow(s|ed)?|permits|permitted|approved?|clear(ed)?|legal|OK|safe|may|authori[sz]ed)\b/.test(t));
  assert.deepEqual(found, []);
});

test("the page never scrolls sideways", async (page) => {
  await page.addStyleTag({ content: "* { content-visibility: visible !important; }" });  // it would hide what runs over
  await page.evaluate(() => document.querySelectorAll("details").forEach((d) => { d.open = true; }));
  await page.waitForTimeout(200);
  const { scroll, client } = await page.evaluate(() => ({ scroll: document.documentElement.scrollWidth, client: document.documentElement.clientWidth }));
  assert.ok(scroll <= client, `${scroll} px of content in ${client} px`);
});

async function picture(width, scheme, name, prepare) {
  const { context, page } = await open(width, scheme);
  if (prepare) await prepare(page);
  await page.screenshot({ path: path.join(pictures, `${name}.png`), fullPage: true });
  await context.close();
}

async function takePictures() {
  await mkdir(pictures, { recursive: true });
  const sheet = async (page) => {
    await page.evaluate(() => { const d = document.querySelector(".field-sheet"); d.open = true; d.querySelector(".figures").open = true; });
    await page.waitForTimeout(200);
  };
  await picture(1280, "light", "wide", sheet);
  await picture(390, "light", "phone", sheet);
  await picture(1280, "dark", "dark");
  const { context, page } = await open(1280);
  await page.pdf({ path: path.join(pictures, "print.pdf") }).catch(() => {});
  await context.close();
}

tests.push(...pictureTests(plan));

let failed = 0;
async function judge(name, run) {
  try {
    await run();
    console.log(`ok ${name}`);
  } catch (error) {
    failed += 1;
    console.log(`FAILED ${name}\n${error.message}`);
  }
}

for (const width of [1280, 390]) {
  const { context, page, trouble } = await open(width);
  for (const { name, run } of tests) {
    await judge(`${width}: ${name}`, async () => {
      await run(page);
      assert.deepEqual(trouble.splice(0), []);
    });
    trouble.length = 0;
  }
  await context.close();
}
await judge("the page is under 2 MB", async () => {
  const { size } = await stat(page_file);
  console.log(`report.html: ${Math.round(size / 1024)} kB`);
  assert.ok(size < 2e6, `${size} bytes`);
});
for (const { name, run } of [...(await axeTests(browser, page_file)), keyboardTest(browser, page_file), ...planTests(browser, path.resolve(folder), plan), largeTest(browser, path.resolve(folder))]) await judge(name, run);
if (pictures) await takePictures();
await browser.close();
process.exit(failed === 0 ? 0 : 1);
