// Whole ways through the pages: a newcomer's account, and the jobs of examples/job.sh from the
// first look at the parts to the signed PDF, gates that hold, decisions and corrections with them;
// by keyboard alone, by touch, and with the command line half way.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, kept, people, signIn, tabletIn } from "./bench.mjs";
import { byKeyboard, byTouch, choose, enter, tabTo } from "./hands.mjs";
import { Told } from "./told.mjs";

let chromium;
before(async () => (chromium = await browser()));
after(() => chromium?.close());

/** Opens a told job with the keyboard alone, from the list of jobs, and goes to its first step. */
async function openByKeyboard(page, { joint, files }) {
  await page.locator("main").focus();
  await tabTo(page, (at) => at.tag === "a" && at.main);
  await enter(page);
  await tabTo(page, (at) => at.name === "joint");
  await choose(page, joint);
  await tabTo(page, (at) => at.name === "files");
  if (files.length > 0) await choose(page, files);
  await tabTo(page, (at) => at.tag === "button" && at.main);
  await enter(page);
  const job = await jobOf(page);
  await page.locator("[data-next-href]").focus();
  await enter(page);
  return job;
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
  assert.match(said, /^Verified: 1 job, \d+ events, \d+ signatures/);
}

/** Does what is next with the command line; false where nothing is. */
async function goOn(bench, told, job, { step: next }) {
  if (!next) return false;
  const { step, half, standing, evidence } = next;
  const open = evidence.filter((one) => one.always && !one.given);
  if (standing === "waits-for-signature") {
    await bench.as("Fay", ["job", "sign", job]);
  } else if (open.length > 0 && open.every((one) => /second/.test(one.kind))) {
    await bench.as("Cam", ["job", "record", job, step, "--second"]);
  } else {
    const { options, why } = told.last(step, half);
    // What was corrected in the end is recorded right at once.
    const right = options.filter((option) => option !== "--why" && option !== why);
    await bench.as("Fay", ["job", "record", job, step, ...right]);
  }
  return true;
}

/** Whoever stands beside signs in at a tablet of their own, once. */
function tabletsOf(bench, options) {
  const tablets = new Map();
  return async (name) => {
    if (!tablets.has(name)) {
      const tablet = await tabletIn(chromium, options);
      await signIn(tablet, bench, name);
      tablets.set(name, tablet);
    }
    return tablets.get(name);
  };
}

/** Says on the signed job's page what became known later, as it is told. */
async function followUp(page, told) {
  const { step, settings } = told.deeds.find((deed) => deed.verb === "follow-up");
  await tabTo(page, (at) => at.folds === "record");
  await page.keyboard.press("Enter");
  await tabTo(page, (at) => at.name === "about");
  // One of several: the arrows go through them.
  const about = () => page.evaluate(() => document.querySelector("[name=about]:checked")?.value);
  await page.keyboard.press("Space");
  for (let press = 0; press < 4 && (await about()) !== step; press += 1) {
    await page.keyboard.press("ArrowDown");
  }
  assert.equal(await about(), step);
  await tabTo(page, async (at) => {
    if (at.tag !== "button" && settings[at.name]) await page.keyboard.type(settings[at.name]);
    return at.tag === "button" && at.deed === "follow-up";
  });
  await enter(page);
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

/** The told jobs, and by which hand they are done; the washer's tablet shows inches. */
const ways = [
  ["toric", "the keyboard alone", byKeyboard, {}],
  ["toric", "touch", byTouch, { hasTouch: true, size: "tall" }],
  ["chilled-toric", "touch", byTouch, { hasTouch: true, size: "small", theme: "dark" }],
  ["conical-washer", "the keyboard alone", byKeyboard, { units: "in" }],
];

for (const [kind, how, byHand, { units, ...options }] of ways) {
  test(`a job with a ${kind} comes to its signed PDF by ${how}`, async () => {
    const told = Told.of(kind);
    const bench = await Bench.withPeople();
    const page = await tabletIn(chromium, options);
    // Some deeds are judged by finite elements, here beside two other tests.
    page.setDefaultTimeout(120_000);
    const tabletOf = tabletsOf(bench, options);
    try {
      await bench.bringIn(told.gauges);
      await signIn(page, bench, "Fay");
      if (units) {
        const cookie = { name: "ringtrue-units", value: units, url: bench.url };
        await page.context().addCookies([cookie]);
      }
      const job = await openByKeyboard(page, told);
      const [cautioned, held] = [[], []];
      const pages = await byHand(page, told, {
        tabletOf,
        seen: async (here) => {
          const order = await page.evaluate(() => {
            const own = (s) => document.querySelector(`.told > ${s}`);
            const [caution, what] = [".caution", ".what"].map(own);
            return caution && Boolean(caution.compareDocumentPosition(what) & 4);
          });
          // Where a step can hurt somebody the caution stands before it.
          if (order !== null) cautioned.push([here.step, order]);
          if (here.standing === "held") held.push(`${here.step} ${here.half ?? ""}`.trim());
        },
      });
      assert.ok(pages > 50, `${pages} pages`);
      assert.ok(cautioned.length > 10 && cautioned.every(([, order]) => order));
      // Whatever is told more than once held first.
      const again = told.deeds.filter((deed, at) => {
        const before = told.deeds.slice(0, at);
        const same = before.some((one) => one.step === deed.step && one.half === deed.half);
        return same && ["record", "correct", "override"].includes(deed.verb);
      });
      assert.deepEqual(held, again.map(({ step, half }) => `${step} ${half ?? ""}`.trim()));
      assert.match(page.url(), /\/sign$/);
      await tabTo(page, (at) => at.tag === "button" && at.deed === "sign");
      await enter(page);
      await signAs(page, bench, job, "Cam");
      await followUp(page, told);
      await pdfOf(page, bench, `${kind}-by-${how.replaceAll(" ", "-")}.pdf`);
      const { events } = await (await bench.tablet("Fay")).get(`/api/jobs/${job}`);
      const kinds = new Set(events.map((event) => event.kind));
      for (const { verb } of told.deeds) {
        const done = { record: "recorded", correct: "corrected", override: "overridden" }[verb];
        if (done) assert.ok(kinds.has(done), done);
      }
      assert.equal(events.at(-1).kind, "followed-up");
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
    const told = Told.of("toric");
    await bench.bringIn(told.gauges);
    await signIn(page, bench, "Fay");
    const job = await openByKeyboard(page, told);
    await byKeyboard(page, told, { stop: (here) => here.step === "match-parts" });
    for (let turn = 0; turn < 150; turn += 1) {
      const next = JSON.parse(await bench.as("Fay", ["job", "next", job, "--json"]));
      if (!(await goOn(bench, told, job, next))) break;
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
