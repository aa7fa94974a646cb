// A browser with the network off, and pages opened in it from the disk.

import { createRequire } from "node:module";
import { fileURLToPath, pathToFileURL } from "node:url";

const require = createRequire(new URL("../../src/web/package.json", import.meta.url));
const { chromium } = require("playwright-core");
const { buildSync } = require("esbuild");
export const axeFile = require.resolve("axe-core/axe.min.js");

// A part of the page's program as a script that leaves its exports in `window[name]`.
export function scriptOf(contents, name) {
  const resolveDir = fileURLToPath(new URL("../../src/web", import.meta.url));
  return buildSync({ stdin: { contents, resolveDir }, bundle: true, write: false, format: "iife", globalName: name, target: "es2020" }).outputFiles[0].text;
}

export function launch(executablePath) {
  return chromium.launch({
    executablePath,
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
      "--disable-component-update", "--disable-sync"],
  });
}

// Everything of a page of usual size is made: its strips are drawn and its sheets are filled.
const settled = () => [...document.querySelectorAll("#season .strip")].every((e) => e.querySelector("svg[role=img]"))
  && [...document.querySelectorAll(".sheet-body")].every((e) => e.childElementCount > 0);

// `trouble` gathers messages, errors and requests that leave the disk.
export async function openPage(browser, file, { width, colorScheme = "light", wait = settled, prepare }) {
  const context = await browser.newContext({ viewport: { width, height: 900 }, offline: true, colorScheme, hasTouch: width < 500, isMobile: width < 500 });
  const page = await context.newPage();
  const trouble = [];
  page.on("console", (m) => ["error", "warning"].includes(m.type()) && trouble.push(`console: ${m.text()}`));
  page.on("pageerror", (e) => trouble.push(`error: ${e.message}`));
  page.on("request", (r) => /^(file|data):/.test(r.url()) || trouble.push(`request: ${r.url()}`));
  if (prepare) await page.addInitScript(prepare);
  await page.goto(pathToFileURL(file).href, { timeout: 120000 });
  await page.waitForSelector("#numbers");
  for (let tries = 0; wait && !(await page.evaluate(wait)); tries += 1) {
    if (tries > 300) throw new Error("the page is not made in 30 seconds");
    await page.waitForTimeout(100);
  }
  await page.waitForTimeout(300);
  return { context, page, trouble };
}
