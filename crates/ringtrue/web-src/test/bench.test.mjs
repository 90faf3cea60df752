// What must hold while work goes on: a line that drops, two tablets, a session that locks, a
// reading that can't be right, the ring as it is read.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bench, browser, people, signIn, tabletIn } from "./bench.mjs";
import { Told } from "./told.mjs";
import { byApi, heightsOf } from "./walk.mjs";

let chromium, bench, fay;
const told = Told.of("toric");
before(async () => {
  chromium = await browser();
  bench = await Bench.withPeople();
  await bench.bringIn(told.gauges);
  fay = await bench.tablet("Fay");
});
after(async () => {
  await chromium?.close();
  await bench?.end();
});

const isHeight = (next) => next.step === "height";

/** A tablet on the page of the first reading round the ring, of a job of its own. */
async function atHeights(name = "Fay", options = {}) {
  const job = await fay.open(told);
  await byApi(fay, told, job, isHeight);
  const page = await tabletIn(chromium, options);
  await signIn(page, bench, name);
  await page.goto(`${bench.url}/jobs/${job}/steps/height/a`);
  return { job, page };
}

const heights = () => heightsOf(told.last("height", "a")).typed;
const cells = (page) => page.locator("input[data-reading]");

/** Types readings as the gauge does: digits, then Enter. */
async function gaugeTypes(page, typed) {
  for (const one of typed) {
    await page.keyboard.type(one);
    await page.keyboard.press("Enter");
  }
}

const events = async (job, kind) =>
  (await fay.get(`/api/jobs/${job}`)).events.filter(
    (one) => one.kind === kind && one.step === "height" && one.half === "a",
  );

test("readings go in one after another, the ring is drawn, a slip is asked back", async () => {
  const { job, page } = await atHeights();
  try {
    await cells(page).first().focus();
    assert.equal(await page.locator("tr[data-now]").getAttribute("data-angle"), "0");
    const [first, second, ...rest] = heights().slice(0, 8);
    await gaugeTypes(page, [first, second]);
    assert.equal(await page.locator("tr[data-now]").getAttribute("data-angle"), "90");
    assert.equal(await page.locator(".guide circle.now").count(), 1);
    // A digit slipped: it is asked back before the next place, and can be kept or typed anew.
    await gaugeTypes(page, ["109.9"]);
    await page.locator("#ask-back").waitFor();
    assert.equal(await page.locator("tr[data-now]").getAttribute("data-angle"), "90");
    await gaugeTypes(page, rest);
    assert.equal(await page.locator("#ask-back").count(), 0);
    await page.locator(".so-far .drawing svg").first().waitFor();
    assert.equal((await events(job, "recorded")).length, 0);
    // What is drawn says what the report would: verdict and what to do, from the bench itself.
    await page.locator(".so-far .of-report .verdict").first().waitFor();
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a line that drops in the middle of a round loses nothing and saves once", async () => {
  const { job, page } = await atHeights();
  try {
    const typed = heights().slice(0, 8);
    await cells(page).first().focus();
    await gaugeTypes(page, typed.slice(0, 3));
    await page.context().setOffline(true);
    await gaugeTypes(page, typed.slice(3));
    await page.locator("select[name=gauge]").selectOption({ index: 1 });
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.locator('[data-saved="waits"]').waitFor();
    // Not even a page that is closed loses it: the tablet has it.
    const stored = await page.evaluate(() =>
      localStorage.getItem(`ringtrue-draft ${location.pathname}`),
    );
    assert.ok(typed.every((one) => stored.includes(`"${one}"`)), stored);
    await page.context().setOffline(false);
    await page.locator("section.verdict").first().waitFor();
    assert.equal((await events(job, "recorded")).length, 1);
    assert.equal(await page.evaluate(() => localStorage.length), 0);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("an answer that is lost on the way back is asked for again, and done once", async () => {
  const { job, page } = await atHeights();
  try {
    await cells(page).first().focus();
    await gaugeTypes(page, heights().slice(0, 8));
    await page.locator("select[name=gauge]").selectOption({ index: 1 });
    let lost = 0;
    await page.route("**/steps/height/a", async (route) => {
      if (route.request().method() !== "POST" || lost > 0) return route.continue();
      lost += 1;
      // The bench has it; the tablet never hears of it.
      await route.fetch({ maxRedirects: 0 });
      return route.abort("connectionreset");
    });
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.locator("section.verdict").first().waitFor();
    assert.equal(lost, 1);
    assert.equal((await events(job, "recorded")).length, 1);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a page that is closed before it saves is there again with what was typed", async () => {
  const { page } = await atHeights();
  try {
    await cells(page).first().focus();
    await gaugeTypes(page, heights().slice(0, 4));
    await page.reload();
    const back = await cells(page).evaluateAll((all) => all.slice(0, 4).map((one) => one.value));
    assert.deepEqual(back, heights().slice(0, 4));
    await page.locator('[data-saved="typed"]').waitFor();
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("another number of places or rounds keeps what was typed, with script and without", async () => {
  for (const javaScriptEnabled of [true, false]) {
    const { job, page } = await atHeights("Fay", { javaScriptEnabled });
    try {
      const typed = heights().slice(0, 8);
      for (const [nth, one] of typed.entries()) await cells(page).nth(nth).fill(one);
      await page.locator("select[name=gauge]").selectOption({ index: 1 });
      const gauge = await page.locator("select[name=gauge]").inputValue();
      const values = () => cells(page).evaluateAll((all) => all.map((one) => one.value));
      const layOut = async (what, count) => {
        await page.locator(`button[name="lay-out"][value$="${what}=${count}"]:visible`).click();
        await page.waitForFunction(
          (wanted) => document.querySelectorAll("input[data-reading]").length === wanted,
          { rounds: 8 * count, places: 2 * count }[what],
        );
      };
      await layOut("rounds", 2);
      assert.deepEqual((await values()).slice(0, 8), typed);
      assert.equal(await page.locator("select[name=gauge]").inputValue(), gauge);
      await cells(page).nth(8).fill("11.05");
      // Every second place of eight is a place of four.
      await layOut("places", 4);
      const now = await values();
      assert.deepEqual(now.slice(0, 4), [0, 2, 4, 6].map((nth) => typed[nth]));
      assert.equal(now[4], "11.05");
      if (!javaScriptEnabled) {
        // A gauge that ends with Enter saves no half round.
        await cells(page).nth(1).focus();
        await Promise.all([page.waitForEvent("framenavigated"), page.keyboard.press("Enter")]);
        assert.equal((await values())[4], "11.05");
        assert.equal((await events(job, "recorded")).length, 0);
      } else {
        await page.goto(page.url().split("?")[0]);
        await page.waitForFunction(() => document.querySelectorAll("input[data-reading]").length === 8);
        assert.equal((await values())[4], "11.05");
        await page.locator('[data-saved="typed"]').waitFor();
      }
      assert.deepEqual(page.broken, []);
    } finally {
      await page.context().close();
    }
  }
});

test("two tablets see each other within a second, the later one overwrites nothing", async () => {
  const { job, page } = await atHeights();
  const other = await tabletIn(chromium, { size: "tall" });
  try {
    await signIn(other, bench, "Cam");
    await other.goto(`${bench.url}/jobs/${job}/steps/height/a`);
    await cells(other).first().focus();
    await gaugeTypes(other, heights().slice(0, 8));
    await cells(page).first().focus();
    await gaugeTypes(page, heights().slice(0, 8));
    await page.locator("select[name=gauge]").selectOption({ index: 1 });
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.locator("section.verdict").first().waitFor();
    const saved = Date.now();
    await other.locator("[data-news]", { hasText: "Fay" }).waitFor({ timeout: 1000 });
    assert.ok(Date.now() - saved < 1000);
    await other.locator("[data-evidence-form] [data-primary]").click();
    const wrong = other.locator(".wrong");
    await wrong.locator("li", { hasText: "Fay" }).first().waitFor();
    assert.equal((await events(job, "recorded")).length, 1);
    const still = await cells(other).evaluateAll((all) => all.slice(0, 8).map((one) => one.value));
    assert.deepEqual(still, heights().slice(0, 8));
    // Having seen it, the second one may save.
    await other.locator("[data-evidence-form] [data-primary]").click();
    await other.waitForURL((url) => url.pathname.endsWith("/height/a"));
    await other.locator("section.verdict").first().waitFor();
    assert.equal((await events(job, "recorded")).length, 2);
    assert.deepEqual([...page.broken, ...other.broken], []);
  } finally {
    await page.context().close();
    await other.context().close();
  }
});

test("a session that locks keeps what was typed, and goes on after the passphrase", async () => {
  const { job, page } = await atHeights();
  try {
    await cells(page).first().focus();
    await gaugeTypes(page, heights().slice(0, 8));
    await page.locator("select[name=gauge]").selectOption({ index: 1 });
    // Somebody locks this session, as idleness does.
    await page.evaluate(() => {
      const form = new FormData(document.querySelector("form[data-lock]"));
      return fetch("/lock", { method: "POST", body: new URLSearchParams(form) });
    });
    await page.locator("[data-evidence-form] [data-primary]").click();
    const cover = page.locator("dialog[data-locked]");
    await cover.waitFor();
    await cover.locator("input").fill("not this one");
    await cover.locator("button").click();
    await cover.locator(".wrong").waitFor();
    await cover.locator("input").fill(people.Fay[1]);
    await cover.locator("button").click();
    await page.locator("section.verdict").first().waitFor();
    assert.equal((await events(job, "recorded")).length, 1);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("an untouched session locks by itself and covers the page", async () => {
  const own = await Bench.withPeople("--lock-after", "1");
  const page = await tabletIn(chromium);
  try {
    const tablet = await own.tablet("Fay");
    const job = await tablet.open(told);
    await signIn(page, own, "Fay");
    await page.goto(`${own.url}/jobs/${job}/steps/make-safe`);
    await page.locator('input[name="given.locked-out"][value="yes"]').check();
    await page.locator("dialog[data-locked]").waitFor({ timeout: 75_000 });
    assert.ok(await page.locator('input[name="given.locked-out"][value="yes"]').isChecked());
    await page.locator("dialog input").fill(people.Fay[1]);
    await page.locator("dialog button").click();
    await page.locator("dialog").waitFor({ state: "detached" });
    assert.ok(await page.locator('input[name="given.locked-out"][value="yes"]').isChecked());
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
    await own.end();
  }
});

test("bare values are in the units that were chosen", async () => {
  const job = await fay.open(told);
  await byApi(fay, told, job, (next) => next.step === "drain");
  const page = await tabletIn(chromium);
  try {
    await signIn(page, bench, "Fay");
    await page.context().addCookies([{ name: "ringtrue-units", value: "in", url: bench.url }]);
    await page.goto(`${bench.url}/jobs/${job}/steps/drain`);
    const drained = page.locator('[name="given.drained"]');
    assert.equal(await drained.locator("~ .unit").textContent(), "US gal");
    await drained.fill("1,9");
    await page.locator('[name="given.oil-look"]').fill("grey");
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.waitForURL("**/steps/part-halves");
    const { events } = await fay.get(`/api/jobs/${job}`);
    assert.match(JSON.stringify(events.at(-1)), /drained 1,9 US gal/);
    await page.goto(`${bench.url}/jobs/${job}/steps/drain`);
    await page.locator("[data-recorded] dd", { hasText: "1,9 US gal" }).waitFor();
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a photo of a tablet goes up shrunk", async () => {
  const job = await fay.open(told);
  await byApi(fay, told, job, (next) => next.step === "first-photo");
  const page = await tabletIn(chromium);
  try {
    await signIn(page, bench, "Fay");
    await page.goto(`${bench.url}/jobs/${job}/steps/first-photo`);
    const large = await page.evaluate(async () => {
      const canvas = Object.assign(document.createElement("canvas"), { width: 4000, height: 3000 });
      canvas.getContext("2d").fillRect(0, 0, 2000, 2000);
      const blob = await new Promise((made) => canvas.toBlob(made, "image/png"));
      return [...new Uint8Array(await blob.arrayBuffer())];
    });
    const file = { name: "as-found.png", mimeType: "image/png", buffer: Buffer.from(large) };
    await page.locator('[name="given.as-found"]').setInputFiles(file);
    await page.locator('[name="given.leak-story"]').fill("weeps");
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.waitForURL("**/steps/drain");
    await page.goto(`${bench.url}/jobs/${job}/history`);
    const href = await page.locator('a[href*="/files/"]').first().getAttribute("href");
    const size = await page.evaluate(async (href) => {
      const image = await createImageBitmap(await (await fetch(href)).blob());
      return [image.width, image.height];
    }, href);
    assert.deepEqual(size, [1600, 1200]);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});
