// The computed section under a slider, and a change that is tried: what moves, in which units, and
// that nothing of it touches the job.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, kept, signIn, tabletIn } from "./bench.mjs";
import { Told } from "./told.mjs";
import { byApi } from "./walk.mjs";

let chromium, bench, fay, job;
const told = Told.of("toric");
before(async () => {
  chromium = await browser();
  bench = await Bench.withPeople();
  await bench.bringIn(told.gauges);
  fay = await bench.tablet("Fay");
  job = await fay.open(told);
  // The sizes of the stack are measured: the gap that they make is marked.
  await byApi(fay, told, job, (next) => next.step === "dry-out");
});
after(async () => {
  await chromium?.close();
  await bench?.end();
});

/** The page of the section once it is solved. */
async function section(options = {}) {
  const page = await tabletIn(chromium, options);
  await signIn(page, bench, "Fay");
  await page.goto(`${bench.url}/jobs/${job}/section`);
  await page.locator("#gap-slider").waitFor({ timeout: 120_000 });
  return page;
}

/** What the page says at the gap that is shown. */
const values = (page) =>
  page.evaluate(() => {
    const texts = (name) =>
      [...document.querySelectorAll(`[data-value="${name}"]`)].map((one) => one.textContent.trim());
    return {
      gap: texts("gap")[0],
      load: texts("load")[0],
      roll: texts("roll"),
      peak: texts("peak"),
      at: document.querySelector("[data-gap]").textContent,
      pictures: [...document.querySelectorAll("[data-halves] figure")].map((one) => one.innerHTML),
      curve: document.querySelector("[data-curve]").innerHTML,
    };
  });

const at = (page, number) =>
  page.locator("[data-gap]", { hasText: new RegExp(`\\b${number} `) }).waitFor();

test("the slider moves frame, gap, load, roll and contact pressure, by key and by hand", async () => {
  const page = await section();
  try {
    const slider = page.locator("#gap-slider");
    await slider.focus();
    await page.keyboard.press("Home");
    await at(page, 1);
    const first = await values(page);
    assert.match(first.gap, /^\d+\.\d\d mm/);
    assert.match(first.load, /^\d+\.\d\d N\/mm$/);
    await page.keyboard.press("End");
    const count = Number(await slider.getAttribute("max")) + 1;
    await at(page, count);
    const last = await values(page);
    const number = (text) => Number.parseFloat(text);
    assert.ok(number(last.gap) < number(first.gap), `${first.gap} ${last.gap}`);
    assert.ok(number(last.load) > number(first.load), `${first.load} ${last.load}`);
    assert.equal(last.roll.length, 2);
    for (const half of [0, 1]) {
      assert.notEqual(last.roll[half], first.roll[half]);
      assert.ok(number(last.peak[half]) > number(first.peak[half]));
      assert.notEqual(last.pictures[half], first.pictures[half]);
    }
    assert.notEqual(last.curve, first.curve);
    assert.match(await slider.getAttribute("aria-valuetext"), /mm, \d+ of \d+/);
    // The tolerance of the gap and the measured gap stand on the curve.
    assert.match(last.curve, /gap limits: /);
    assert.match(last.curve, /gap by the sizes/);
    assert.match(last.gap, /by the sizes, measured where read: /);
    // By hand: a press in the middle of the slider.
    const box = await slider.boundingBox();
    await page.mouse.move(box.x + box.width - 4, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2, { steps: 5 });
    await page.mouse.up();
    await at(page, Math.ceil(count / 2));
    const middle = await values(page);
    assert.ok(number(middle.gap) > number(last.gap) && number(middle.gap) < number(first.gap));
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("it plays and stops, and does not where less motion is asked for", async () => {
  const page = await section();
  try {
    const play = page.locator("[data-slider] button");
    await page.locator("#gap-slider").fill("0");
    await at(page, 1);
    await play.click();
    await page.waitForFunction(() => Number(document.querySelector("#gap-slider").value) >= 3);
    await play.click();
    const stood = await page.locator("#gap-slider").inputValue();
    await page.waitForTimeout(900);
    assert.equal(await page.locator("#gap-slider").inputValue(), stood);
    // Asked for while the page stands there.
    await page.emulateMedia({ reducedMotion: "reduce" });
    await play.waitFor({ state: "hidden" });
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
  const calm = await section({ reducedMotion: "reduce" });
  try {
    assert.ok(await calm.locator("[data-slider] button").isHidden());
    await calm.locator("#gap-slider").fill("2");
    await at(calm, 3);
  } finally {
    await calm.context().close();
  }
});

test("values are in the units that were chosen", async () => {
  const page = await section({ size: "tall", theme: "dark" });
  try {
    await page.context().addCookies([{ name: "ringtrue-units", value: "in", url: bench.url }]);
    await page.reload();
    await page.locator("#gap-slider").fill("5");
    await at(page, 6);
    const { gap, load, peak } = await values(page);
    assert.match(gap, /^\d\.\d{4} in/);
    assert.match(load, /^\d+\.\d lbf\/in$/);
    assert.match(peak[0], / psi$/);
    mkdirSync(join(kept, "tall"), { recursive: true });
    await page.screenshot({ path: join(kept, "tall", "section-inch.png"), fullPage: true });
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("each change is laid over the joint's curve and touches nothing of the job", async () => {
  const before = await fay.get(`/api/jobs/${job}`);
  const page = await tabletIn(chromium);
  try {
    await signIn(page, bench, "Fay");
    const own = new Set();
    const changes = [
      ["friction", "0,4"],
      ["gap", "2,4"],
      ["hardness", "50"],
      ["section", "11.8 mm"],
      ["ramp", "14"],
    ];
    for (const [name, typed] of changes) {
      await page.goto(`${bench.url}/jobs/${job}/try`);
      await page.locator(`#${name}`).fill(typed);
      await page.keyboard.press("Enter");
      // While it is solved the page looks again by itself.
      await page.locator("[data-compared] svg").waitFor({ timeout: 120_000 });
      assert.equal(await page.locator(`#${name}`).inputValue(), typed);
      assert.match(await page.locator("[data-compared]").innerHTML(), /with the change/);
      const rows = await page.locator("tbody tr").evaluateAll((all) =>
        all.map((row) => [...row.cells].map((cell) => cell.textContent.trim())),
      );
      own.add(rows.map((row) => row[1]).join());
      assert.notDeepEqual(rows.map((row) => row[1]), rows.map((row) => row[2]), name);
    }
    // The joint's own loads are the same beside each of them.
    assert.equal(own.size, 1);
    await page.screenshot({ path: join(kept, "try-ramp.png"), fullPage: true });
    await page.goto(`${bench.url}/jobs/${job}/try?section=wide`);
    assert.match(await page.locator(".wrong").textContent(), /wide/);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
  assert.deepEqual(await fay.get(`/api/jobs/${job}`), before);
});
