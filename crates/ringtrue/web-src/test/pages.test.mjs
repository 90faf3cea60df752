// Every page: no violation found by axe in either theme, nothing wider than its window, and a
// picture at each size, kept in target/pages.
import AxeBuilder from "@axe-core/playwright";
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, kept, signIn, sizes, tabletIn } from "./bench.mjs";
import { byApi, gauges } from "./walk.mjs";

let chromium, bench, known, pages;
before(async () => {
  chromium = await browser();
  bench = await Bench.withPeople();
  known = await bench.bringIn(gauges);
  pages = await allPages();
});
after(async () => {
  await chromium?.close();
  await bench?.end();
});

/** Pages by name: who looks at them, and where they are. */
async function allPages() {
  const fay = await bench.tablet("Fay");
  const [held, open] = [await fay.open(), await fay.open()];
  await byApi(fay, open, known, (next) => next.step === "height");
  await fay.act(held, {
    kind: "record",
    step: "make-safe",
    half: null,
    given: [{ kind: "tick", name: "locked-out", answer: "no" }],
  });
  return {
    "sign-in": [null, "/sign-in"],
    jobs: ["Fay", "/jobs"],
    start: ["Fay", "/jobs/new"],
    build: ["Fay", "/jobs/build"],
    job: ["Fay", `/jobs/${open}`],
    caution: ["Fay", `/jobs/${open}/steps/make-safe`],
    readings: ["Fay", `/jobs/${open}/steps/height/a`],
    sizes: ["Fay", `/jobs/${open}/steps/measure-stack`],
    check: ["Fay", `/jobs/${open}/steps/leak-test`],
    verdict: ["Fay", `/jobs/${open}/steps/face-flatness/a`],
    override: ["Eli", `/jobs/${held}/steps/make-safe`],
    history: ["Fay", `/jobs/${open}/history`],
    correct: ["Fay", `/jobs/${open}/events/2/correct`],
    sign: ["Fay", `/jobs/${open}/sign`],
    section: ["Fay", `/jobs/${open}/section`],
    try: ["Fay", `/jobs/${open}/try`],
    library: ["Eli", "/library"],
    people: ["Kim", "/people"],
    nowhere: ["Fay", "/nowhere"],
  };
}

/** Readings are typed before the picture is taken: the ring is to be on it. */
async function prepare(page, name) {
  // A section that is solved shows itself anew.
  if (name === "section") await page.locator("#gap-slider").waitFor({ timeout: 120_000 });
  if (name !== "readings") return;
  const cells = page.locator("input[data-reading]");
  const typed = ["11.06", "11.11", "11.09", "10.99", "10.93", "10.90", "10.91", "10.99"];
  for (const [nth, one] of typed.entries()) await cells.nth(nth).fill(one);
  await page.locator("select[name=gauge]").selectOption({ index: 1 });
  await cells.nth(6).focus();
  await page.locator(".so-far .drawing svg").first().waitFor();
}

for (const theme of ["light", "dark"]) {
  test(`axe finds no violation on any page, ${theme}`, async () => {
    const found = [];
    for (const who of [null, "Fay", "Eli", "Kim"]) {
      const page = await tabletIn(chromium, { theme });
      if (who) await signIn(page, bench, who);
      for (const [name, [whose, path]] of Object.entries(pages)) {
        if (whose !== who) continue;
        await page.goto(bench.url + path);
        await prepare(page, name);
        const { violations } = await new AxeBuilder({ page }).analyze();
        for (const { id, nodes } of violations) {
          found.push(`${name}: ${id}: ${nodes.map((node) => node.html).slice(0, 3).join(" | ")}`);
        }
      }
      assert.deepEqual(page.broken, []);
      await page.context().close();
    }
    assert.deepEqual(found, []);
  });
}

for (const [size, { width }] of Object.entries(sizes)) {
  test(`pages fit a window of ${width}, and targets fit a thumb`, async () => {
    const theme = size === "tall" ? "dark" : "light";
    mkdirSync(join(kept, size), { recursive: true });
    const found = [];
    for (const who of [null, "Fay", "Eli", "Kim"]) {
      const page = await tabletIn(chromium, { size, theme });
      if (who) await signIn(page, bench, who);
      for (const [name, [whose, path]] of Object.entries(pages)) {
        if (whose !== who) continue;
        await page.goto(bench.url + path);
        await prepare(page, name);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        if (wide > width) found.push(`${name} is ${wide} wide`);
        found.push(...(await small(page)).map((one) => `${name}: ${one}`));
        await page.screenshot({ path: join(kept, size, `${name}.png`), fullPage: true });
      }
      await page.context().close();
    }
    assert.deepEqual(found, []);
  });
}

/** What can be touched and is less than 48 px high. */
const small = (page) =>
  page.evaluate(() => {
    const touched = "button, a[href], select, textarea, summary, input";
    const all = document.querySelectorAll(touched);
    const seen = [...all].filter((one) => {
      if (!one.checkVisibility() || one.type === "hidden") return false;
      if (one.closest(".skip, svg")) return false;
      // A radio button is touched by its label.
      const box = (one.closest("label") ?? one).getBoundingClientRect();
      return box.height > 0 && box.height < 47.5;
    });
    return seen.map((one) => one.outerHTML.slice(0, 90));
  });
