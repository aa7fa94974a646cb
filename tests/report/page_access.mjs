// The page for those who cannot see it, cannot see colours, or have no mouse.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { axeFile, openPage } from "./page_open.mjs";

const tags = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"];

// What is shut is opened: all but the sheets, and of those the first three.
function openWhatIsShut() {
  const sheets = [...document.querySelectorAll(".field-sheet")].slice(0, 3);
  for (const d of document.querySelectorAll("details")) {
    const sheet = d.closest(".field-sheet");
    if (!sheet || sheets.includes(sheet)) d.open = true;
  }
  document.querySelectorAll(".strip, main > section").forEach((e) => { e.style.contentVisibility = "visible"; });
}

async function violations(page, axe) {
  await page.evaluate(openWhatIsShut);
  await page.waitForTimeout(200);
  await page.evaluate(axe);
  const found = await page.evaluate((values) => window.axe.run(document, { runOnly: { type: "tag", values }, resultTypes: ["violations"] }), tags);
  return found.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => `${n.target.join(" ")} ${n.failureSummary.split("\n")[1] ?? ""}`).join(" | ")} (${v.nodes.length})`);
}

// Looks: [width, colours, medium].
const looks = [[1440, "light", "screen"], [1440, "dark", "screen"], [1440, "light", "print"], [390, "light", "screen"], [390, "dark", "screen"], [390, "light", "print"]];

function plantFaults() {
  const text = document.createElement("p");
  text.textContent = "hard to read";
  text.style.cssText = "color:#eee;background:#fff";
  const picture = document.createElement("img");
  picture.src = "data:,";
  document.querySelector("main").prepend(text, picture);
}

export async function axeTests(browser, file) {
  const axe = await readFile(axeFile, "utf8");
  const tests = looks.map(([width, colorScheme, media]) => ({
    name: `no fault of access, ${width} px, ${colorScheme}, ${media}`,
    run: async () => {
      const { context, page } = await openPage(browser, file, { width, colorScheme });
      await page.emulateMedia({ media, colorScheme });
      try {
        assert.deepEqual(await violations(page, axe), []);
      } finally {
        await context.close();
      }
    },
  }));
  tests.push({
    name: "planted faults of access are found",
    run: async () => {
      const { context, page } = await openPage(browser, file, { width: 1440 });
      await page.evaluate(plantFaults);
      const found = (await violations(page, axe)).map((v) => v.split(":")[0]).sort();
      await context.close();
      assert.deepEqual(found, ["color-contrast", "image-alt"]);
    },
  });
  return tests;
}

// Presses Tab until the focused element fits; fails when it comes round or takes too many.
async function tabTo(page, selector, most = 400) {
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
  }
  assert.fail(`no ${selector} within ${most} presses of Tab`);
}

const value = (page) => page.evaluate(() => document.activeElement.getAttribute("aria-valuetext"));

export function keyboardTest(browser, file) {
  return {
    name: "the keyboard alone: map, order of the board, a day of a strip, a sheet opened and closed",
    run: async () => {
      const { context, page } = await openPage(browser, file, { width: 1440 });
      try {
        await tabTo(page, ".field-number");
        const id = (await page.evaluate(() => document.activeElement.textContent)).trim();
        await page.keyboard.press("Enter");
        const sheet = page.locator(`.field-sheet[data-field="${id}"]`);
        assert.equal(await sheet.getAttribute("open"), "");
        assert.equal(await page.evaluate(() => document.activeElement.closest(".field-sheet")?.dataset.field), id);
        await page.keyboard.press("Enter");
        assert.equal(await sheet.getAttribute("open"), null);

        await page.evaluate(() => { document.activeElement.blur(); getSelection().removeAllRanges(); window.scrollTo(0, 0); document.body.tabIndex = -1; document.body.focus(); });
        await tabTo(page, "#strip-order");
        const before = await page.locator("#season .strip").evaluateAll((all) => all.map((e) => e.dataset.field));
        await page.keyboard.press("End");
        await page.waitForTimeout(50);
        const after = await page.locator("#season .strip").evaluateAll((all) => all.map((e) => e.dataset.field));
        assert.deepEqual([...before].sort(), [...after].sort());
        assert.equal(await page.locator("#strip-order").inputValue(), "field");

        await tabTo(page, ".day-handle");
        const first = await value(page);
        await page.keyboard.press("ArrowRight");
        const second = await value(page);
        assert.notEqual(first, second);
        await page.keyboard.press("PageDown");
        assert.notEqual(await value(page), second);
        assert.match(await value(page), /^(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2} \w{3} · (ground can be worked in|crop still standing)/);
        const field = () => page.evaluate(() => document.activeElement.closest(".strip").dataset.field);
        assert.equal(await field(), after[0]);
        await page.keyboard.press("ArrowDown");
        assert.equal(await field(), after[1]);

        await tabTo(page, "#season .strip-head a");
        const wanted = await page.evaluate(() => document.activeElement.closest(".strip").dataset.field);
        await page.keyboard.press("Enter");
        assert.equal(await page.locator(`.field-sheet[data-field="${wanted}"]`).getAttribute("open"), "");
        await page.keyboard.press("Enter");
        assert.equal(await page.locator(`.field-sheet[data-field="${wanted}"]`).getAttribute("open"), null);
      } finally {
        await context.close();
      }
    },
  };
}
