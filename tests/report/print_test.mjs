// Prints every sheet of a plan in a browser, on both papers and in both languages, and looks at the pages.
//   node print_test.mjs FOLDER CHROMIUM PROGRAM

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";

const { chromium } = createRequire(new URL("../../src/web/package.json", import.meta.url))("playwright-core");
const [folder, browserPath, program] = process.argv.slice(2);
const plan = JSON.parse(await readFile(path.resolve(folder, "plan.json"), "utf8"));
const points = { a4: [595, 842], letter: [612, 792] };
const landscape = (name) => name === "truck-sheet.html" || name === "combine-card.html";
const margins = (name) => (name === "truck-sheet.html" ? 12 : 20); // mm, both sides together
const fits_one_page = 24; // fields on the truck sheet, with names of usual length

// Whole pages of a PDF as [width, height] in points.
function pagesOf(pdf) {
  const text = pdf.toString("latin1");
  const boxes = [...text.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map((m) => [Math.round(m[1]), Math.round(m[2])]);
  assert.equal(boxes.length, (text.match(/\/Type\s*\/Page\b/g) ?? []).length);
  return boxes;
}

// Texts that stick out of their cell or of the paper.
const sticksOut = () => [...document.querySelectorAll("td, th, h1, h2, p, li")]
  .filter((e) => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline" || e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map((e) => `${e.tagName}: ${e.textContent.slice(0, 60)}`);

async function look(browser, file, name, paper) {
  const across = points[paper][landscape(name) ? 1 : 0] / 72 * 25.4 - margins(name);
  const context = await browser.newContext({ offline: true, viewport: { width: Math.floor(across / 25.4 * 96), height: 800 } });
  const page = await context.newPage();
  const asked = [];
  page.on("request", (r) => r.url().startsWith("file:") || asked.push(r.url()));
  await page.goto(pathToFileURL(file).href);
  await page.emulateMedia({ media: "print" });
  assert.deepEqual(await page.evaluate(sticksOut), [], `${name} on ${paper}`);
  const shown = await page.evaluate(() => document.body.textContent);
  assert.doesNotMatch(shown, /undefined|NaN|\bnull\b/);
  assert.deepEqual(asked, []);
  const pages = pagesOf(await page.pdf({ preferCSSPageSize: true }));
  const wanted = landscape(name) ? [...points[paper]].reverse() : points[paper];
  for (const size of pages) assert.ok(Math.abs(size[0] - wanted[0]) <= 1 && Math.abs(size[1] - wanted[1]) <= 1, `${name}: ${size} for ${wanted}`);
  if (name === "truck-sheet.html") {
    if (plan.fields.length <= fits_one_page) assert.equal(pages.length, 2, "one page, and its back");
    for (const f of plan.fields) assert.ok(shown.includes(f.id));
  }
  if (name === "field-sheets.html") assert.ok(pages.length >= plan.fields.length);
  await context.close();
  return pages.length;
}

const out = await mkdtemp(path.join(tmpdir(), "aftercut-print-"));
const browser = await chromium.launch({ executablePath: browserPath, args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"] });
try {
  for (const [paper, language] of [["a4", "en"], ["letter", "es"], ["a4", "es"], ["letter", "en"]]) {
    execFileSync(program, ["export", folder, "--out", out, "--paper", paper, "--language", language]);
    const sheets = (await readdir(out)).filter((n) => n.endsWith(".html"));
    assert.equal(sheets.length, 4);
    for (const name of sheets) console.log(`${paper} ${language} ${name}: ${await look(browser, path.join(out, name), name, paper)} pages`);
  }
} finally {
  await browser.close();
  await rm(out, { recursive: true });
}
