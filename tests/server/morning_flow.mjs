// A morning in the season: the plan made again after the journal, the days ahead, the plan made again told to stand.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import path from "node:path";

// `at`: {test, origin, farm, out, faults(page), pictures, page}, after the journal has been written in.
export function morningTests(at) {
  at.test("the plan is made again for this morning, beside the one that stands", async () => {
    await at.page.bringToFront();
    const before = await readFile(path.join(at.out, "plan.json"), "utf8");
    assert.match(await at.page.locator("#journal").textContent(), /\d+ entries since this plan/);
    await at.page.getByRole("button", { name: "Plan again from this morning" }).click();
    await at.page.getByRole("link", { name: "Show the plan made again beside the one that stands" }).click({ timeout: 240000 });
    await at.page.getByText("The plan made again", { exact: true }).waitFor();
    await at.page.locator("#beside .two-figures").first().waitFor();
    const again = JSON.parse(await readFile(path.join(at.out, "again", "2026-10-20", "plan.json"), "utf8"));
    assert.ok(again.audit.ok && again.again && again.so_far.entries > 10);
    assert.equal(await readFile(path.join(at.out, "plan.json"), "utf8"), before);
    if (at.pictures) for (const id of ["so-far", "again-words"]) await at.page.locator(`#${id}`).screenshot({ path: path.join(at.pictures, `${id}.png`) });
    await at.page.getByRole("link", { name: "Back to the plan that stands" }).click();
    await at.page.locator("#journal").waitFor();
  });

  at.test("the days ahead are looked at, and the look is kept", async () => {
    const part = at.page.locator("#ahead");
    await part.getByRole("button", { name: "Look ahead from this morning" }).click();
    await part.locator(".look-lines li").first().waitFor({ timeout: 120000 });
    const looks = (await readFile(path.join(at.farm, "readiness.jsonl"), "utf8")).trim().split("\n").map((l) => JSON.parse(l));
    assert.deepEqual(looks.map((l) => l.day), ["2026-10-20"]);
    assert.equal(await part.locator(".look-lines li").count(), looks[0].fields.length);
    const below = looks[0].fields.filter((f) => f.ready === null && f.chance < f.wanted).length, said = await part.textContent();
    assert.match(said, /As of the morning of 20 Oct 2026/);
    assert.equal((said.match(/is wanted\./g) ?? []).length, below + (said.match(/keeps the chance that is wanted/g) ?? []).length);
    assert.deepEqual(await at.faults(at.page), []);
    await at.page.reload();
    await part.locator(".look-lines li").first().waitFor();
    assert.match(await part.textContent(), /As of the morning of 20 Oct 2026/);
  });

  at.test("the plan made again is told to stand, and the one before is kept", async () => {
    const file = (...names) => readFile(path.join(at.out, ...names, "plan.json"), "utf8");
    const before = await file(), made = await file("again", "2026-10-20");
    await at.page.locator("#journal").getByRole("button", { name: "Let this plan stand from now on" }).click();
    await at.page.locator("#again-words").waitFor({ timeout: 60000 });  // on the page of the plan that stands from now on
    await at.page.locator("#journal .standing").waitFor({ state: "detached" });
    assert.equal(await file(), made);
    assert.equal(await file("stood", JSON.parse(before).farm.as_of), before);
    assert.doesNotMatch(await at.page.locator("#journal").textContent(), /since this plan/);
  });
}
