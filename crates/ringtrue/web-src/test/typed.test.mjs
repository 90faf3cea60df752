// What is typed stays what it was: under other units, and where it is no number at all; and what is
// said of it lies on nothing that a hand may want.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bench, browser, sizes, signIn, tabletIn } from "./bench.mjs";
import { Told } from "./told.mjs";

let chromium, bench, fay;
const told = Told.of("toric");
before(async () => {
  chromium = await browser();
  bench = await Bench.withPeople();
  fay = await bench.tablet("Fay");
});
after(async () => {
  await chromium?.close();
  await bench?.end();
});

/** A tablet on a step's page of a job of its own. */
async function at(step, options = {}) {
  const job = await fay.open(told);
  const page = await tabletIn(chromium, options);
  await signIn(page, bench, "Fay");
  await page.goto(`${bench.url}/jobs/${job}/steps/${step}`);
  return page;
}

/** Chooses the units under the person's name. */
async function units(page, name) {
  await page.locator("details[data-me] > summary").click();
  await page.locator(`details[data-me] input[name="units"][value="${name}"]`).check();
  await Promise.all([
    page.waitForEvent("load"),
    page.locator('details[data-me] form[action="/look"] button').click(),
  ]);
  await page.waitForFunction(
    (wanted) => document.documentElement.dataset.units === wanted,
    name,
  );
}

test("a draft keeps the unit that it was typed under", async () => {
  const page = await at("tighten");
  const torque = page.locator('[name="given.torque"]');
  try {
    await torque.fill("120");
    await units(page, "in");
    await page.locator('[data-saved="typed"]').waitFor();
    assert.equal(await torque.inputValue(), "120 N m");
    await units(page, "mm");
    await page.locator('[data-saved="typed"]').waitFor();
    assert.equal(await torque.inputValue(), "120");
    // Typed on under the other unit, each stays what it was.
    await units(page, "in");
    await page.locator('[data-saved="typed"]').waitFor();
    await torque.fill("88");
    await units(page, "mm");
    await page.locator('[data-saved="typed"]').waitFor();
    assert.equal(await torque.inputValue(), "88 lbf ft");
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("readings and their lines keep their units, too", async () => {
  const page = await at("gap-closed");
  const cell = (column, line) => page.locator(`input[name$=".cell.${column}"]`).nth(line);
  try {
    await cell("angle", 0).fill("90");
    await cell("gap", 0).fill("2,61");
    await units(page, "in");
    await page.locator('[data-saved="typed"]').waitFor();
    assert.equal(await cell("angle", 0).inputValue(), "90");
    assert.equal(await cell("gap", 0).inputValue(), "2,61 mm");
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("what is no number is asked back at once, and does not go on", async () => {
  const page = await at("height/a");
  const note = page.locator(".ask-back");
  try {
    const heights = page.locator("input[data-reading]");
    const first = heights.first();
    await first.focus();
    for (const typed of ["1o.6", "10.6l", "seven", "10.6 bar", "10.6.1"]) {
      await first.fill(typed);
      await page.keyboard.press("Enter");
      await page.keyboard.press("Enter");
      assert.ok((await note.textContent()).startsWith(`${typed} `), typed);
      assert.ok(await first.evaluate((one) => one === document.activeElement), typed);
    }
    // Units, fractions and signs that the bench takes are taken here.
    for (const typed of ["11.0", "11,0", "11 mm", "0.43 in", "7/16\"", "11000 \u00b5m"]) {
      await first.fill(typed);
      await page.keyboard.press("Enter");
      assert.equal(await note.count(), 0, typed);
      assert.ok(await heights.nth(1).evaluate((one) => one === document.activeElement), typed);
      await first.focus();
    }
    // Whoever goes on by another way is told, and it is not taken for looked at.
    await first.fill("seven");
    await page.keyboard.press("Tab");
    await note.waitFor();
    assert.equal(await page.locator('input[name="kept"]').count(), 0);
    assert.ok(await heights.nth(1).evaluate((one) => one === document.activeElement));
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a swept surface is chosen, and Enter goes on from it", async () => {
  const page = await at("line-up");
  try {
    const line = page.locator("table.cells tbody tr").nth(1);
    await line.locator("select").focus();
    await page.keyboard.type("f");
    assert.equal(await line.locator("select").inputValue(), "face");
    await page.keyboard.press("Enter");
    const angle = line.locator("input").first();
    assert.ok(await angle.evaluate((one) => one === document.activeElement));
    await angle.fill("90");
    await page.reload();
    await page.locator('[data-saved="typed"]').waitFor();
    assert.equal(await line.locator("select").inputValue(), "face");
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

for (const size of Object.keys(sizes)) {
  test(`what is said lies on no control, ${size}`, async () => {
    const page = await at("make-safe", { size });
    try {
      await page.locator('input[name="given.locked-out"][value="yes"]').check();
      await page.reload();
      const line = page.locator("[data-say]");
      await line.filter({ hasText: /\S/ }).waitFor();
      const foot = () => page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      for (const go of [async () => {}, foot]) {
        await go();
        await page.waitForTimeout(100);
        const under = await line.evaluate((said) => {
          const own = said.getBoundingClientRect();
          const hidden = getComputedStyle(said).visibility === "hidden";
          const all = [...document.querySelectorAll("a, button, input, select, textarea, summary")];
          const lies = (one) => {
            const box = one.getBoundingClientRect();
            const across = box.left < own.right && box.right > own.left;
            return across && box.top < own.bottom && box.bottom > own.top;
          };
          return hidden ? [] : all.filter(lies).map((one) => one.outerHTML);
        });
        assert.deepEqual(under, []);
      }
      assert.deepEqual(page.broken, []);
    } finally {
      await page.context().close();
    }
  });
}
