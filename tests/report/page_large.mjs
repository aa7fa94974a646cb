// A page of 300 fields, made of the fields of a plan over and over: how soon it shows, and what holds it up while it is scrolled and
// pointed at. Times are printed, not judged; what is judged is that nothing is drawn before it is wanted.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { openPage } from "./page_open.mjs";

const wanted = 300;

function again(plan, shapes) {
  const times = Math.ceil(wanted / plan.fields.length);
  const copies = (all, of, limit) => Array.from({ length: times }, (_, k) => all.map((x) => of(structuredClone(x), k))).flat().slice(0, limit);
  const id = (text, k) => (k === 0 ? text : `${text}-${k}`);
  const renamed = (x, k) => ({ ...x, field: id(x.field, k) });
  const moved = (c, k) => (typeof c[0] === "number" ? [c[0] + 0.05 * (k % 5), c[1] - 0.05 * Math.floor(k / 5)] : c.map((x) => moved(x, k)));
  const fields = copies(plan.fields, (f, k) => ({ ...f, id: id(f.id, k), harvest: f.harvest }), wanted);
  const ids = new Set(fields.map((f) => f.id));
  const inside = (all) => all.filter((x) => ids.has(x.field));
  return {
    plan: {
      ...plan, fields,
      schedule: inside(copies(plan.schedule, renamed)), water: inside(copies(plan.water, renamed)), workable: inside(copies(plan.workable, renamed)),
      target: { ...plan.target, fields: inside(copies(plan.target.fields, renamed)) },
    },
    shapes: {
      ...shapes,
      fields: { ...shapes.fields, features: copies(shapes.fields.features, (f, k) => ({ ...f, properties: { id: id(f.properties.id, k), label: moved(f.properties.label, k) }, geometry: { ...f.geometry, coordinates: moved(f.geometry.coordinates, k) } })).filter((f) => ids.has(f.properties.id)) },
    },
  };
}

async function writeLarge(folder) {
  const html = await readFile(path.join(folder, "report.html"), "utf8");
  const part = (name) => new RegExp(`(<script type="application/json" id="${name}">)([^]*?)(</script>)`);
  const read = (name) => JSON.parse(html.match(part(name))[2]);
  const large = again(read("plan"), read("shapes"));
  const text = (value) => JSON.stringify(value).replace(/</g, "\\u003c");
  const file = path.join(folder, "large.html");
  await writeFile(file, html.replace(part("plan"), (_, a, b, c) => a + text(large.plan) + c).replace(part("shapes"), (_, a, b, c) => a + text(large.shapes) + c));
  return file;
}

// Counts what holds the page up for more than 50 ms, from the moment on which it is asked for.
function watch() {
  window.held = [];
  new PerformanceObserver((list) => window.held.push(...list.getEntries().map((e) => Math.round(e.duration)))).observe({ type: "longtask", buffered: true });
  const look = () => (document.querySelector("#season .strip svg[role=img]") ? (window.shownAt = performance.now()) : requestAnimationFrame(look));
  requestAnimationFrame(look);
}

async function heldWhile(page, act) {
  await page.evaluate(() => { window.held = []; });
  await act();
  await page.waitForTimeout(200);
  return page.evaluate(() => window.held);
}

async function scrollThrough(page) {
  const top = await page.evaluate(() => document.getElementById("season").getBoundingClientRect().top + window.scrollY);
  await page.evaluate((y) => window.scrollTo(0, y), top);
  await page.mouse.move(700, 450);
  for (let i = 0; i < 60; i += 1) {
    await page.mouse.wheel(0, 600);
    await page.waitForTimeout(16);
  }
}

async function pointAlong(page) {
  const box = await page.locator("#season .strip-box").nth(20).boundingBox();
  for (let i = 0; i < 120; i += 1) await page.mouse.move(box.x + 10 + (i * (box.width - 20)) / 120, box.y + 20 + (i % 5));
}

export function largeTest(browser, folder) {
  return {
    name: "a page of 300 fields is drawn as it is wanted",
    run: async () => {
      const { context, page, trouble } = await openPage(browser, await writeLarge(folder), { width: 1440, wait: null, prepare: watch });
      try {
        const first = await page.evaluate(() => ({ shown: Math.round(window.shownAt ?? performance.now()), drawn: document.querySelectorAll("#season .strip svg[role=img]").length, filled: [...document.querySelectorAll(".sheet-body")].filter((e) => e.childElementCount > 0).length }));
        assert.equal(await page.locator("#season .strip").count(), wanted);
        assert.equal(await page.locator(".field-sheet").count(), wanted);
        assert.equal(first.filled, 0);
        assert.equal(await page.locator("#map .field-number").count(), await page.evaluate(() => JSON.parse(document.getElementById("shapes").textContent).fields.features.length));
        const over = await page.evaluate(() => {
          const boxes = [...document.querySelectorAll("#map .field-number span:not(.tucked)")].map((e) => e.getBoundingClientRect());
          return boxes.filter((a, i) => boxes.slice(0, i).some((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)).length;
        });
        assert.equal(over, 0);
        const atOnce = await page.evaluate(() => window.held);
        await page.waitForTimeout(1500);
        const scrolled = await heldWhile(page, () => scrollThrough(page));
        assert.ok(await page.locator("#season .strip svg[role=img]").count() > first.drawn || first.drawn === wanted);
        await page.locator("#season .strip-box").nth(20).scrollIntoViewIfNeeded();
        const pointed = await heldWhile(page, () => pointAlong(page));
        assert.match(await page.locator(".day-words").textContent(), /·/);
        const last = page.locator(".field-sheet").last();
        await last.locator("summary").first().focus();
        const opened = await heldWhile(page, () => page.keyboard.press("Enter"));
        assert.ok(await last.locator(".option").count() > 0);
        await page.locator("#strip-order").selectOption("method");
        assert.ok(await page.locator("#season .strip-group").count() > 1);
        assert.equal(await page.locator("#season .strip").count(), wanted);
        assert.deepEqual(trouble, []);
        console.log(`300 fields: first strip after ${first.shown} ms, ${first.drawn} strips drawn by then; tasks over 50 ms [ms]: at the start ${atOnce.join(" ") || "none"}; scrolling ${scrolled.join(" ") || "none"}; pointing ${pointed.join(" ") || "none"}; opening a sheet ${opened.join(" ") || "none"}`);
      } finally {
        await context.close();
      }
    },
  };
}
