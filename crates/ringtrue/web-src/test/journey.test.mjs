// Whole ways through the pages: a newcomer's account, and the demo joint from the first look at
// the parts to the signed PDF; by keyboard alone, by touch, and with the command line half way.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, kept, people, root, signIn, tabletIn } from "./bench.mjs";
import { byKeyboard, byTouch, choose, enter, tabTo } from "./hands.mjs";
import { gauges, optionsAt } from "./walk.mjs";

let chromium;
before(async () => (chromium = await browser()));
after(() => chromium?.close());

const files = ["joint.toml", "frame-half.toml", "hub-half.toml"].map((name) =>
  join(root, "examples/final-drive", name),
);

/** Opens the demo job with the keyboard alone, from the list of jobs. */
async function openByKeyboard(page) {
  await page.locator("main").focus();
  await tabTo(page, (at) => at.tag === "a" && at.main);
  await enter(page);
  await tabTo(page, (at) => at.name === "joint");
  await choose(page, files[0]);
  await tabTo(page, (at) => at.name === "files");
  await choose(page, files.slice(1));
  await tabTo(page, (at) => at.tag === "button" && at.main);
  await enter(page);
  return jobOf(page);
}

const jobOf = (page) => page.locator("[data-job]").first().getAttribute("data-job");

/** Signs the whole job as somebody, on its page. */
async function signAs(page, bench, job, name) {
  await signIn(page, bench, name);
  await page.goto(`${bench.url}/jobs/${job}/sign`);
  await tabTo(page, (at) => at.tag === "button" && at.deed === "sign");
  await enter(page);
}

/** The PDF of a job as the page hands it out, checked by the program without a store. */
async function pdfOf(page, bench, name) {
  // On a busy machine a whole report takes its time.
  const coming = page.waitForEvent("download", { timeout: 60_000 });
  await page.locator('a[href$="/report.pdf"]').first().click();
  const path = join(kept, name);
  await (await coming).saveAs(path);
  assert.equal(readFileSync(path).subarray(0, 5).toString(), "%PDF-");
  const said = await bench.command(["job", "verify", path], { RINGTRUE_STORE: "/nowhere" });
  assert.match(said, /^Verified: 1 jobs, \d+ events, \d+ signatures/);
}

/** Does what is next with the command line; false where nothing is. */
async function goOn(bench, job, { step: next }) {
  if (!next) return false;
  const { step, half, standing, evidence } = next;
  const open = evidence.filter((one) => one.always && !one.given);
  if (standing === "waits-for-signature") {
    await bench.as("Fay", ["job", "sign", job]);
  } else if (open.length > 0 && open.every((one) => /second/.test(one.kind))) {
    await bench.as("Cam", ["job", "record", job, step, "--second"]);
  } else {
    await bench.as("Fay", ["job", "record", job, ...optionsAt(step, half)]);
  }
  return true;
}

test("a newcomer makes the first account, signs out and in, and adds a fitter", async () => {
  const bench = new Bench();
  await bench.start();
  const page = await tabletIn(chromium);
  try {
    await page.goto(bench.url);
    assert.equal(new URL(page.url()).pathname, "/first");
    // The name has the focus already.
    await page.keyboard.type("Kim");
    for (const typed of [people.Kim[1], people.Kim[1], "bench 3"]) {
      await page.keyboard.press("Tab");
      await page.keyboard.type(typed);
    }
    await enter(page);
    assert.equal(new URL(page.url()).pathname, "/people");
    assert.equal(await page.locator(".me .name").textContent(), "Kim");
    await page.locator("#name").fill("Fay");
    await page.locator('input[name=role][value="fitter"]').check();
    await page.locator("#passphrase").fill(people.Fay[1]);
    await page.locator("#again").fill(people.Fay[1]);
    await page.locator("section.narrow button.primary").click();
    await page.locator(".cards .title", { hasText: "Fay" }).waitFor();
    await page.locator(".me > summary").click();
    await page.locator('form[action="/sign-out"] button').click();
    await page.waitForURL("**/sign-in**");
    await signIn(page, bench, "Fay");
    assert.equal(await page.locator(".me .name").textContent(), "Fay");
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
    await bench.end();
  }
});

for (const [how, byHand, options] of [
  ["the keyboard alone", byKeyboard, {}],
  ["touch", byTouch, { hasTouch: true, size: "tall" }],
]) {
  test(`the demo joint comes to its signed PDF by ${how}`, async () => {
    const bench = await Bench.withPeople();
    const page = await tabletIn(chromium, options);
    try {
      await bench.bringIn(gauges);
      await signIn(page, bench, "Fay");
      const job = await openByKeyboard(page);
      await page.locator("[data-next-href]").focus();
      await enter(page);
      const cautioned = [];
      const pages = await byHand(page, {
        seen: async (here) => {
          const order = await page.evaluate(() => {
            const own = (s) => document.querySelector(`.step > ${s}`);
            const [caution, what] = [".caution", ".what"].map(own);
            return caution && Boolean(caution.compareDocumentPosition(what) & 4);
          });
          // Where a step can hurt somebody the caution stands before it.
          if (order !== null) cautioned.push([here.step, order]);
        },
      });
      assert.ok(pages > 50, `${pages} pages`);
      assert.ok(cautioned.length > 10 && cautioned.every(([, order]) => order));
      assert.match(page.url(), /\/sign$/);
      await tabTo(page, (at) => at.tag === "button" && at.deed === "sign");
      await enter(page);
      await signAs(page, bench, job, "Cam");
      await pdfOf(page, bench, `${how.replaceAll(" ", "-")}.pdf`);
      assert.deepEqual(page.broken, []);
    } finally {
      await page.context().close();
      await bench.end();
    }
  });
}

test("a job begun on the pages is finished with the command line", async () => {
  const bench = await Bench.withPeople();
  const page = await tabletIn(chromium);
  try {
    await bench.bringIn(gauges);
    await signIn(page, bench, "Fay");
    const job = await openByKeyboard(page);
    await page.locator("[data-next-href]").focus();
    await enter(page);
    await byKeyboard(page, { stop: (here) => here.step === "match-parts" });
    for (let turn = 0; turn < 150; turn += 1) {
      const next = JSON.parse(await bench.as("Fay", ["job", "next", job, "--json"]));
      if (!(await goOn(bench, job, next))) break;
    }
    await bench.as("Fay", ["job", "sign", job]);
    await bench.as("Cam", ["job", "sign", job]);
    await page.goto(`${bench.url}/jobs/${job}/sign`);
    await pdfOf(page, bench, "begun-on-pages.pdf");
    await page.goto(`${bench.url}/jobs/${job}/history`);
    const by = await page.locator(".event b").allTextContents();
    assert.deepEqual(new Set(by), new Set(["Fay", "Cam"]));
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
    await bench.end();
  }
});
