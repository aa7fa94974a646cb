// The board, the pictures of a sheet and the layers of the map against plan.json.

import assert from "node:assert/strict";

export function pictureTests(plan) {
  const tests = [];
  const test = (name, run) => tests.push({ name, run });
  const order = (page) => page.locator("#season .strip").evaluateAll((all) => all.map((e) => e.dataset.field));
  const put = (page, by) => page.locator("#strip-order").selectOption(by);
  const byId = new Map(plan.fields.map((f) => [f.id, f]));
  const sorted = (list, key) => list.every((id, i) => i === 0 || key(byId.get(list[i - 1])) <= key(byId.get(id)));
  const outcome = (f) => f.methods.find((m) => m.id === f.chosen.method && m.possible);
  const chance = (f) => (f.planting_date === null ? 9 : outcome(f)?.chance_ready ?? -1);

  test("the board is in the order that was asked for", async (page) => {
    for (const [by, key] of [["harvest", (f) => f.harvest], ["straw", (f) => -f.straw.load_kg_per_ha], ["sure", chance], ["planting", (f) => f.planting_date ?? "9"]]) {
      await put(page, by);
      const ids = await order(page);
      assert.equal(ids.length, plan.fields.length);
      assert.ok(sorted(ids, key), `${by}: ${ids}`);
    }
  });

  test("by method the strips stand under a heading for each method", async (page) => {
    await put(page, "method");
    const used = new Set(plan.fields.map((f) => f.chosen.method));
    const groups = page.locator("#season .strip-group");
    assert.equal(await groups.count(), used.size);
    for (let i = 0; i < used.size; i += 1) {
      const ids = await groups.nth(i).locator(".strip").evaluateAll((all) => all.map((e) => e.dataset.field));
      assert.equal(new Set(ids.map((id) => byId.get(id).chosen.method)).size, 1);
      const name = plan.methods.find((m) => m.id === byId.get(ids[0]).chosen.method)?.name ?? "no method is open";
      assert.ok((await groups.nth(i).locator("h3").textContent()).toLowerCase().includes(name.toLowerCase()));
    }
    await put(page, "sure");
  });

  test("the day under the pointer is told: its date, the ground, the job", async (page) => {
    const pass = plan.schedule.find((r) => !r.stands_by);
    const strip = page.locator(`#season .strip[data-field="${pass.field}"]`);
    await strip.scrollIntoViewIfNeeded();
    const handle = strip.locator(".day-handle");
    const box = await handle.boundingBox();
    await handle.hover({ position: { x: box.width / 2, y: 20 } });
    const text = await page.locator(".day-words").textContent();
    assert.match(text, /^(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2} [A-Z][a-z]{2} · /);
    assert.equal(await handle.getAttribute("aria-valuetext"), text);
    const days = Number(await handle.getAttribute("aria-valuemax")) + 1;
    const name = plan.operations.find((o) => o.id === pass.operation).name;
    await handle.focus();
    await page.keyboard.press("Home");
    let told = false;
    for (let i = 0; i < days && !told; i += 1) {
      const words = await handle.getAttribute("aria-valuetext");
      told = words.toLowerCase().includes(name.toLowerCase());
      if (told) assert.ok(words.includes(` ${Number(pass.start.slice(8, 10))} `), words);
      await page.keyboard.press("ArrowRight");
    }
    assert.ok(told, `no day tells of ${name}`);
  });

  test("each shown year is a mark in the picture of ready days, on its side of the planting line", async (page) => {
    for (const field of plan.fields) {
      const sheet = page.locator(`.field-sheet[data-field="${field.id}"]`);
      if (field.ready_days.length === 0) {
        assert.equal(await sheet.locator(".ready-days").count(), 0);
        continue;
      }
      await sheet.evaluate((d) => { d.open = true; });
      await page.waitForTimeout(30);
      const marks = (kind) => sheet.locator(`.year-mark.${kind}`).count();
      const days = field.ready_days.filter((r) => !r.ready.startsWith("not by"));
      const inTime = days.filter((r) => r.ready <= field.planting_date).length;
      assert.deepEqual([await marks("in-time"), await marks("late"), await marks("never")], [inTime, days.length - inTime, field.ready_days.length - days.length]);
      assert.equal(await sheet.locator(".years li").count(), field.ready_days.length);
      const wall = await sheet.locator(".ready-days .planting").evaluate((e) => e.getBoundingClientRect().left);
      for (const right of await sheet.locator(".year-mark.in-time rect").evaluateAll((all) => all.map((e) => e.getBoundingClientRect().right))) assert.ok(right <= wall + 2.5);
      for (const left of await sheet.locator(".year-mark.late rect").evaluateAll((all) => all.map((e) => e.getBoundingClientRect().left))) assert.ok(left >= wall - 2.5);
      await sheet.evaluate((d) => { d.open = false; });
    }
  });

  test("the winter of a field has its two bands, and the table its last morning", async (page) => {
    for (const field of plan.fields) {
      const part = page.locator(`.field-sheet[data-field="${field.id}"] .winter`);
      assert.equal(await part.count(), field.winter === null ? 0 : 1);
      if (field.winter === null) continue;
      await page.locator(`.field-sheet[data-field="${field.id}"]`).evaluate((d) => { d.open = true; });
      await page.waitForTimeout(30);
      assert.equal(await part.locator("svg[role=img] .band").count(), 2);
      for (const d of await part.locator("svg[role=img] .band").evaluateAll((all) => all.map((e) => e.getAttribute("d")))) assert.equal(d.split("L").length, 2 * field.winter.under_water.length);
      const shares = field.winter.under_water.filter((x) => x > 0).length;
      assert.equal(await part.locator("svg[role=img] .pond").count(), shares);
      const last = await part.locator("tbody tr").last().locator("td").last().textContent();
      assert.equal(last, String(Math.round(100 * field.winter.under_water[field.winter.under_water.length - 1])));
      await page.locator(`.field-sheet[data-field="${field.id}"]`).evaluate((d) => { d.open = false; });
    }
  });

  test("each method says its last safe start", async (page) => {
    const field = plan.fields.find((f) => f.planting_date !== null && f.methods.some((m) => m.possible && m.last_safe_start));
    if (!field) return;
    const row = page.locator(`.field-sheet[data-field="${field.id}"] .figures tr`, { has: page.locator("th", { hasText: "Last safe start" }) });
    const cells = await row.locator("td").allTextContents();
    assert.equal(cells.filter((t) => t !== "none").length, field.methods.filter((m) => m.possible && m.last_safe_start).length);
  });

  test("layers of the map come and go, and are told in words", async (page) => {
    const shapes = JSON.parse(await page.locator("#shapes").textContent());
    const count = (selector) => page.locator(`#map ${selector}`).count();
    for (const [name, have, selector] of [["stacks", shapes.stacks.features.length, ".stack-sign"], ["setbacks", shapes.setbacks.features.length, "path.setback"]]) {
      const box = page.locator(`.layer-choice input[name="${name}"]`);
      assert.equal(await box.count(), have > 0 ? 1 : 0);
      if (have === 0) continue;
      await box.check();
      assert.equal(await count(selector), have);
      await box.uncheck();
      assert.equal(await count(selector), 0);
    }
    const words = await page.locator(".map-words").textContent().catch(() => "");
    for (const f of shapes.stacks.features) assert.ok(words.includes(f.properties.id));
    for (const f of shapes.setbacks.features) assert.ok(words.includes(f.properties.says) && words.includes(plan.burning.jurisdiction));
    const filled = new Set(plan.water.map((w) => w.field));
    if (filled.size === 0) return;
    const numbers = () => page.locator("#map .field-number span[data-water]").evaluateAll((all) => all.map((e) => getComputedStyle(e, "::after").content).filter((c) => c !== "none"));
    const places = await numbers();
    assert.ok(places.length > 0);
    assert.equal(new Set(places).size, places.length);
    await page.locator('.layer-choice input[name="water"]').uncheck();
    assert.deepEqual(await numbers(), []);
    await page.locator('.layer-choice input[name="water"]').check();
    for (const id of filled) assert.match(words, new RegExp(`\\d+ field ${id} \\(`));
  });

  test("everything that is drawn with a role of a picture has words", async (page) => {
    const nameless = await page.evaluate(() => [...document.querySelectorAll("svg[role=img], svg[role=group]")].filter((e) => !e.getAttribute("aria-label")?.trim()).length);
    assert.equal(nameless, 0);
    const hidden = await page.evaluate(() => [...document.querySelectorAll("#page svg:not([role])")].filter((e) => e.getAttribute("aria-hidden") !== "true" && !e.closest("[aria-hidden=true]") && !e.closest(".leaflet-pane")).length);
    assert.equal(hidden, 0);
  });
  return tests;
}
