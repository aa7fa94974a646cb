// Writing down on a phone: taps counted, targets measured, the server killed with an entry on its way.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";

const least = 64, apart = 12;  // px, for gloves

// Every target of the sheet: too small, or too near to another one. What scrolls goes under the sheet's head and foot.
function badTargets([size, gap]) {
  const open = document.querySelector("dialog[open]");
  const boxes = [...open.querySelectorAll("button, input, summary, a, select")].filter((e) => e.checkVisibility()).map((e) => ({ part: e.closest(".note-head, .note-body, .note-foot"), name: e.textContent || e.getAttribute("aria-label") || e.type, ...e.getBoundingClientRect().toJSON() })).filter((b) => b.width > 0);
  const small = boxes.filter((b) => b.width < size - 0.01 || b.height < size - 0.01).map((b) => `${b.name}: ${b.width} x ${b.height}`);
  const near = [];
  for (const a of boxes) {
    for (const b of boxes) {
      if (a.part !== b.part || a === b || a.left > b.left || (a.left === b.left && a.top >= b.top)) continue;
      const across = b.left - a.right, down = Math.max(b.top - a.bottom, a.top - b.bottom);
      if (Math.max(across, down) < gap - 0.01) near.push(`${a.name} and ${b.name}: ${across}, ${down}`);
    }
  }
  return { count: boxes.length, bad: [...small, ...near] };
}

// The copied farm's weather of this season: days of the record's last year. Gives the text of farm.json.
export async function withWeatherSoFar(scratch, farm) {
  const record = (await readFile(path.join(scratch, "weather", "valley-30-years.csv"), "utf8")).split("\n");
  const days = record.filter((row) => row >= "2025-08-15" && row < "2025-11-01").map((row) => row.replace("2025", "2026"));
  await writeFile(path.join(farm, "so-far.csv"), [record[0], ...days, ""].join("\n"));
  const text = (await readFile(path.join(farm, "farm.json"), "utf8")).replace('"prices": {', '"weather_so_far": {"file": "so-far.csv"},\n "prices": {');
  await writeFile(path.join(farm, "farm.json"), text);
  return text;
}

// `at`: {test, context, watch, origin, farm, kill(), restart(), losing(bool), faults(page), pictures, page}
export function journalTests(at) {
  let phone = null;
  const sheet = () => phone.locator("dialog.write-down");
  const press = (name) => sheet().getByRole("button", { name, exact: true }).click();
  const pick = (value) => sheet().locator(`button[data-value="${value}"]`).first().click();
  const open = async () => {
    await phone.evaluate(() => document.querySelector("dialog[open]")?.close());  // what a failed test left
    await phone.locator(".write-bar").getByRole("button", { name: "Write down" }).click();
  };
  const field = (id) => sheet().locator("button.field", { hasText: new RegExp(`^${id}`) }).click();
  const number = async (text) => { for (const key of text) await press(key === "." ? "Point" : key); };
  const line = () => sheet().locator(".the-line").textContent();
  const measure = async (what) => {
    const { count, bad } = await phone.evaluate(badTargets, [least, apart]);
    assert.ok(count >= 2, what);
    assert.deepEqual(bad, [], what);
  };
  const write = async () => {
    await press("Write it down");
    await sheet().locator(".stands").waitFor();
    return sheet().locator(".stands").textContent();
  };
  const lines = async () => (await readFile(path.join(at.farm, "journal.jsonl"), "utf8")).trim().split("\n").map((l) => JSON.parse(l));

  at.test("a phone asks once who says so, and remembers it", async () => {
    phone = await at.context.newPage();
    at.watch(phone);
    await phone.setViewportSize({ width: 390, height: 844 });
    await phone.goto(`${at.origin}/`);
    await phone.locator("#journal").waitFor();
    await open();
    await press("Rain");
    await number("2.5");
    assert.ok(await sheet().getByRole("button", { name: "Write it down" }).isDisabled());
    await pick("Ana");
    await measure("rain");
    assert.equal(await line(), "rain 2.5 mm · today · says Ana");
    assert.match(await write(), /^Entry 1: 20 Oct, rain 2.5 mm\.$/);
    await press("Done");
    await phone.locator("#journal .entries li").first().waitFor();
    assert.equal(await phone.locator("#journal .entries li").count(), 1);
  });

  at.test("field A1, disk, all of it, today: four taps, each on 64 px", async () => {
    await phone.evaluate(() => {
      window.taps = 0;
      window.addEventListener("click", () => { window.taps += 1; }, true);
    });
    await open();
    await measure("where");
    await field("A1");
    await measure("what");
    await sheet().locator("[data-operation=disk]").click();
    await measure("how much");
    assert.equal(await line(), "A1 disk finished · today · says Ana");
    if (at.pictures) await phone.screenshot({ path: path.join(at.pictures, "write-down.png") });
    assert.match(await write(), /^Entry 2: 20 Oct, field A1: disk finished\.$/);
    const taps = await phone.evaluate(() => window.taps);
    console.log(`taps: ${taps}`);
    assert.ok(taps <= 4, `${taps} taps`);
    await measure("done");
    const [, entry] = await lines();
    assert.deepEqual([entry.field, entry.data.operation, entry.data.finished, entry.by, entry.done_on], ["A1", "disk", true, "Ana", "2026-10-20"]);
    await press("Done");
  });

  const kinds = [
    ["Looked at it", async () => pick("wet"), "looked wet"], ["Looked at it", async () => { await pick("standing"); await number("5"); }, "looked standing 5 cm"],
    ["Rain here", async () => number("12"), "rain 12 mm"], ["Canal water", async () => pick("off"), "water off"],
    ["Canal water", async () => { await pick("on"); await number("10"); }, "water on 10 cm"], ["Boards", async () => pick("in"), "boards in"],
    ["Bales", async () => { await pick("counted"); await number("412"); }, "bales 412 counted"],
    ["Burn", async () => { await pick("answered"); await sheet().getByLabel("Its words, as they were said").fill('not before "noon"'); await sheet().getByLabel("Which office").fill("the office"); }, "burn answered “not before \"noon\"” by “the office”"],
    ["Burn", async () => { await pick("stopped"); await number("4"); }, "burn stopped 4 ha"],
    ["Your word", async () => { await pick("not_method"); await pick("burn"); await press("a neighbour asks"); }, "not burn because “a neighbour asks”"],
    ["Your word", async () => { await pick("skip"); await pick("chisel"); }, "skip chisel"],
    ["Your word", async () => { await pick("neighbour"); await pick("plane"); }, "neighbour plane"],
    ["Your word", async () => { await pick("too_wet"); await press("ruts at the gate"); }, "too wet because “ruts at the gate”"],
    ["Your word", async () => pick("free"), "free"], ["In words", async () => sheet().getByLabel("In short words, after A2").fill("disk 3 ha 1.5 h"), "disk 3 ha 1.5 h"],
  ];
  at.test("every kind of note comes to its words, which the journal takes, on targets of 64 px", async () => {
    const before = (await lines()).length;
    await open();
    await field("A2");
    for (const [name, fill, words] of kinds) {
      await press(name);
      await fill();
      assert.equal(await line(), `A2 ${words} · today · says Ana`);
      await measure(words);
      assert.match(await write(), /^Entry \d+: 20 Oct, field A2: /, words);
      await press("More on A2");
    }
    await press("Back");
    await press("Machine, person");
    await pick("T4");
    await pick("down");
    await measure("a machine");
    assert.match(await write(), /T4 down\.$/);
    await press("Something else");
    await field("A3");
    await sheet().locator("[data-operation=disk]").click();
    await pick("half");
    await sheet().locator("summary", { hasText: "With which machine" }).click();
    await pick("disk 1");
    await pick("T2");
    await press("Yesterday Mon 19 Oct");
    await measure("with whom");
    assert.equal(await line(), "A3 disk 13.6 ha · with disk 1, T2 · Mon 19 Oct · says Ana");
    assert.match(await write(), /^Entry \d+: 19 Oct, field A3: disk 13.6 ha, with disk 1, T2\.$/);
    await press("Done");
    const all = await lines();
    assert.equal(all.length, before + kinds.length + 2);
    assert.equal(all.find((e) => e.data.words)?.data.words, 'not before "noon"');
  });

  at.test("a refused note is shown with its issue, mended, or thrown away", async () => {
    at.losing(true);  // the browser tells of each refusal
    await open();
    await field("C5");
    await press("In words");
    await sheet().getByLabel("In short words, after C5").fill("disk finished");
    await press("Write it down");
    await sheet().getByText("Not written down", { exact: true }).waitFor();
    assert.match(await sheet().locator(".warning").textContent(), /done_on: found 2026-10-20; expected a field that has been cut/);
    await measure("refused");
    assert.match(await phone.locator("#journal .waits h3").textContent(), /1 refused/);
    await press("Mend it");
    assert.equal(await sheet().getByLabel("In short words").inputValue(), "C5 disk finished");
    await sheet().getByLabel("In short words").fill("C5 harvested spread");
    assert.match(await write(), /field C5: harvested, spread\.$/);
    await press("Something else");
    await press("In words");
    await sheet().getByLabel("In short words").fill("A1 dsik 3 ha");
    await press("Write it down");
    await press("Throw it away");
    assert.equal(await phone.locator("#journal .waits").count(), 0);
    at.losing(false);
  });

  at.test("the server is killed with an entry on its way: it waits on the phone, and arrives once", async () => {
    const before = (await lines()).length;
    at.losing(true);
    await at.kill();
    await open();
    await press("Rain");
    await number("7");
    assert.match(await write(), /The server does not answer. It is kept on this phone/);
    await press("Something else");
    await press("Rain");
    await number("8");
    await write();
    await press("Done");
    assert.equal(await phone.locator(".how-many").textContent(), "2 not yet written down");
    assert.match(await phone.locator("#journal .waits").textContent(), /rain 7 mm.*rain 8 mm/s);
    if (at.pictures) await phone.locator("#journal").screenshot({ path: path.join(at.pictures, "waiting.png") });
    await at.restart();
    await phone.locator(".how-many:empty").waitFor({ state: "attached", timeout: 60000 });
    at.losing(false);
    const after = (await lines()).slice(before);
    assert.deepEqual(after.map((e) => e.data.mm), [7, 8]);
    await phone.getByText(/^\d+\. rain 8 mm/).first().waitFor();
    await phone.reload();  // nothing is sent again by a page that opens
    await phone.locator("#journal .entries li").first().waitFor();
    await phone.waitForTimeout(500);
    assert.equal((await lines()).length, before + 2);
  });

  at.test("an entry that was confirmed but not heard of is not written twice", async () => {
    const before = (await lines()).length;
    at.losing(true);
    await phone.route("**/journal", async (route) => {
      if (route.request().method() !== "POST") return route.continue();
      await route.fetch();  // it arrives; its answer does not
      return route.abort();
    });
    await open();
    await press("Rain");
    await number("9");
    await write();
    await press("Done");
    await phone.unroute("**/journal");
    await phone.evaluate(() => window.dispatchEvent(new Event("online")));
    await phone.locator(".how-many:empty").waitFor({ state: "attached", timeout: 30000 });
    at.losing(false);
    assert.equal((await lines()).length, before + 1);
  });

  at.test("by keyboard alone: open, choose, write, take back", async () => {
    const before = (await lines()).length;
    await phone.locator(".write-bar button").focus();
    await phone.keyboard.press("Enter");
    const reach = async (words) => {
      for (let k = 0; k < 60; k += 1) {
        const now = await phone.evaluate(() => document.activeElement.textContent || document.activeElement.getAttribute("aria-label"));
        if (now.startsWith(words)) return;
        await phone.keyboard.press("Tab");
      }
      assert.fail(`${words} was not reached`);
    };
    await reach("Rain");
    await phone.keyboard.press("Enter");
    await phone.keyboard.type("4");
    await reach("Write it down");
    await phone.keyboard.press("Enter");
    await sheet().locator(".stands").waitFor();
    await reach("Take back");
    await phone.keyboard.press("Enter");
    await reach("Take it back");
    await phone.keyboard.press("Enter");
    await sheet().getByText(/taken back: entry \d+/).waitFor();
    await phone.keyboard.press("Escape");
    assert.equal(await sheet().isVisible(), false);
    assert.equal((await lines()).length, before + 2);
  });

  at.test("another page is told, and the list takes back", async () => {
    const other = at.page.locator("#journal");
    await other.getByText(/^\d+\. rain 9 mm/).waitFor();
    await phone.locator("#journal .entries li", { hasText: /^.*\d+\. rain 9 mm/ }).getByRole("button", { name: /^Take back entry/ }).click();
    await press("Take it back");
    await sheet().locator(".stands").waitFor();
    await press("Done");
    await other.getByText(/^\d+\. rain 9 mm/).waitFor({ state: "detached" });
  });

  for (const scheme of ["light", "dark"])
    at.test(`nothing of the sheet stands in the way of a reader with other means (${scheme})`, async () => {
      await phone.emulateMedia({ colorScheme: scheme });
      await open();
      for (const step of [async () => {}, async () => field("A2"), async () => press("Burn"), async () => pick("stopped")]) {
        await step();
        assert.deepEqual(await at.faults(phone), []);
      }
      const { scroll, client } = await phone.evaluate(() => ({ scroll: document.documentElement.scrollWidth, client: document.documentElement.clientWidth }));
      assert.ok(scroll <= client);
      await press("Close");
    });
}
