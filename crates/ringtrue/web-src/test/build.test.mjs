// The form that builds a joint: drawn and checked while it is typed, kept when it is not saved,
// whole without script, by keyboard alone.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, root, signIn, tabletIn } from "./bench.mjs";
import { enter, tabTo } from "./hands.mjs";

let chromium, bench;
const seals = ["frame-half.toml", "hub-half.toml"].map((name) =>
  join(root, "examples/final-drive", name),
);
before(async () => {
  chromium = await browser();
  bench = await Bench.withPeople();
  await bench.bringIn(seals);
});
after(async () => {
  await chromium?.close();
  await bench?.end();
});

/** What is typed, by the name of the field, in the order of the page. */
const typed = new Map([
  ["name", "final drive, right"],
  ["attitude", "lies"],
  ["half.a.from", "final drive 260-15, f"],
  ["half.b.from", "final drive 260-15, h"],
  ["gap.limits.min", "2,1"],
  ["gap.limits.max", "3.1 mm"],
  ["gap.link[1].name", "face to seat"],
  ["gap.link[1].nominal", "71.5"],
  ["gap.link[1].plus_minus", "0.1"],
  ["gap.link[2].name", "shoulder to face"],
  ["gap.link[2].sign", "closes"],
  ["gap.link[2].nominal", "68.9"],
  ["gap.link[2].class", "h11"],
  ["service.speed", "85"],
  ["service.oil", "mineral-oil"],
  ["service.temperature_min", "-25"],
  ["service.temperature_max", "85"],
]);

async function form(options = {}) {
  const page = await tabletIn(chromium, options);
  await signIn(page, bench, "Fay");
  await page.goto(`${bench.url}/jobs/build`);
  return page;
}

const field = (page, name) => page.locator(`[name="${name}"]`);
const wrongAt = (page, name) => page.locator(`[id="${name}-wrong"]`);
const drawn = (page, what) => page.locator(`form [data-drawing="${what}"] svg`);

test("a joint is built with the keyboard alone, and opens its job", async () => {
  const page = await form();
  try {
    await page.locator("main").focus();
    await tabTo(page, async (at) => {
      const text = typed.get(at.name);
      if (text !== undefined) await page.keyboard.type(text);
      return at.tag === "button" && at.value === "open";
    });
    for (const what of ["a", "b", "joint"]) await drawn(page, what).waitFor();
    assert.match(await page.locator('[data-drawing="joint"]').innerHTML(), /nominal seal gap 2\.60/);
    await enter(page);
    await page.waitForURL(/\/jobs\/\d{8}-/);
    assert.match(await page.locator("main").textContent(), /final drive, right/);
    assert.equal(await page.evaluate(() => localStorage.length), 0);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("fields are checked and halves drawn while they are typed, and nothing typed is lost", async () => {
  const page = await form();
  try {
    await field(page, "half.a.from").selectOption({ index: 1 });
    await drawn(page, "a").waitFor();
    const asBought = await page.locator('[data-drawing="a"]').innerHTML();
    await page.locator('[data-half="a"] summary').click();
    const section = "half.a.seal.load_ring.toric.section_diameter";
    assert.equal(await field(page, section).getAttribute("placeholder"), "12 mm");
    await field(page, section).fill("13");
    await page.locator('[data-drawing="a"]', { hasText: "free 13" }).waitFor();
    assert.notEqual(await page.locator('[data-drawing="a"]').innerHTML(), asBought);
    // Wrong at its field, in words, and to be heard with it.
    await field(page, section).fill("13 parsec");
    await wrongAt(page, section).filter({ hasText: "parsec" }).waitFor();
    assert.equal(await field(page, section).getAttribute("aria-invalid"), "true");
    const described = await field(page, section).getAttribute("aria-describedby");
    assert.deepEqual(described.split(" "), [`${section}-help`, `${section}-wrong`]);
    // What is only missing is not complained of while it is typed.
    assert.equal(await page.locator('[aria-invalid="true"]').count(), 1);
    // Two values that contradict each other.
    await field(page, section).fill("12");
    await field(page, "half.a.seal.ring.face_inner_diameter").fill("300");
    const inner = wrongAt(page, "half.a.seal.ring.face_inner_diameter");
    await inner.filter({ hasText: "Lapped face, outside" }).waitFor();
    // A page that is closed has it all again.
    await page.reload();
    assert.equal(await field(page, section).inputValue(), "12");
    await inner.filter({ hasText: "Lapped face, outside" }).waitFor();
    // Sent as it is, every field says what it still wants, and the first one has the focus.
    await page.locator("[data-primary]").click();
    await page.locator(".wrong").waitFor();
    await wrongAt(page, "service.speed").filter({ hasText: "wanted" }).waitFor();
    await page.waitForFunction(() => document.activeElement?.getAttribute("name") === "name");
    assert.equal(await field(page, section).inputValue(), "12");
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("without script a button draws, and what was typed stays", async () => {
  const page = await form({ javaScriptEnabled: false, size: "small" });
  try {
    await field(page, "name").fill("final drive, right");
    await field(page, "half.a.from").selectOption({ index: 1 });
    await field(page, "half.b.from").selectOption("a");
    await field(page, "service.speed").fill("85 parsec");
    await page.locator("[data-draw]").click();
    await drawn(page, "a").waitFor();
    await drawn(page, "joint").waitFor();
    assert.equal(await field(page, "name").inputValue(), "final drive, right");
    assert.equal(await field(page, "half.b.from").inputValue(), "a");
    assert.match(await wrongAt(page, "service.speed").textContent(), /parsec/);
    assert.equal(await page.locator('[aria-invalid="true"]').count(), 1);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth).catch(() => 390);
    assert.ok(wide <= 390, String(wide));
  } finally {
    await page.context().close();
  }
});
