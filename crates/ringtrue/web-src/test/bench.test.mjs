// What must hold while work goes on: a line that drops, two tablets, a session that locks, a
// reading that can't be right, the ring as it is read.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bench, browser, people, signIn, tabletIn } from "./bench.mjs";
import { Told } from "./told.mjs";
import { byApi, heightsOf } from "./walk.mjs";

let chromium, bench, fay, idle;
const told = Told.of("toric");
before(async () => {
  chromium = await browser();
  bench = await Bench.withPeople();
  await bench.bringIn(told.gauges);
  fay = await bench.tablet("Fay");
  idle = await leftAlone();
});
after(async () => {
  await chromium?.close();
  await bench?.end();
  await idle?.bench.end();
});

/** A page on which something is typed and then nothing is done: it locks while the others work. */
async function leftAlone() {
  const bench = await Bench.withPeople("--lock-after", "1");
  const job = await (await bench.tablet("Fay")).open(told);
  const page = await tabletIn(chromium);
  await signIn(page, bench, "Fay");
  await page.goto(`${bench.url}/jobs/${job}/steps/make-safe`);
  await page.locator('input[name="given.locked-out"][value="yes"]').check();
  return { bench, page };
}

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
    await page.locator(".ask-back").waitFor();
    assert.equal(await page.locator("tr[data-now]").getAttribute("data-angle"), "90");
    await gaugeTypes(page, rest);
    assert.equal(await page.locator(".ask-back").count(), 0);
    await page.locator(".so-far .drawing svg").first().waitFor();
    assert.equal((await events(job, "recorded")).length, 0);
    // What is drawn says what the report would: verdict and what to do, from the bench itself.
    await page.locator(".so-far .of-report .verdict").first().waitFor();
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a slip in a check's cell is asked back at once, and kept where it is typed again", async () => {
  const job = await fay.open(told);
  const page = await tabletIn(chromium);
  const cell = (column, line) => page.locator(`input[name$=".cell.${column}"]`).nth(line);
  try {
    await signIn(page, bench, "Fay");
    await page.goto(`${bench.url}/jobs/${job}/steps/leak-test`);
    await cell("time", 0).focus();
    await gaugeTypes(page, ["0", "51.2", "20.1", "5", "512"]);
    const note = page.locator(".ask-back");
    assert.match(await note.textContent(), /^512 /);
    // Heard with its cell, which has the focus still.
    const at = page.locator("input:focus");
    assert.equal(await at.getAttribute("aria-invalid"), "true");
    assert.equal(await at.getAttribute("aria-describedby"), await note.getAttribute("id"));
    await gaugeTypes(page, ["51.1", "201"]);
    assert.match(await note.textContent(), /^201 /);
    // It may be what the gauge shows: once more, and the next cell has the focus.
    await page.keyboard.press("Enter");
    assert.equal(await note.count(), 0);
    assert.ok(await cell("time", 2).evaluate((one) => one === document.activeElement));
    // Time does not go back.
    await gaugeTypes(page, ["4"]);
    assert.match(await note.textContent(), /^4 /);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a value is asked back by what the joint is drawn with, and so is a setting", async () => {
  const [toric, washer] = [await fay.open(told), await fay.open(Told.of("conical-washer"))];
  const page = await tabletIn(chromium);
  const note = page.locator(".ask-back");
  const save = page.locator("[data-evidence-form] [data-primary]");
  const by = async (job, place, ...fields) => {
    await page.goto(`${bench.url}/jobs/${job}/steps/${place}`);
    for (const [name, typed] of fields) await page.locator(`[name="given.${name}"]`).fill(typed);
  };
  try {
    await signIn(page, bench, "Fay");
    // 28 mm deep; nothing is known of a torque.
    await by(toric, "measure-housing/a", ["depth", "2.81"]);
    await page.keyboard.press("Enter");
    assert.match(await note.textContent(), /^2.81 /);
    await page.locator('[name="given.depth"]').fill("28.1");
    await page.keyboard.press("Enter");
    assert.equal(await note.count(), 0);
    await by(toric, "tighten", ["torque", "120000"]);
    await page.keyboard.press("Enter");
    assert.equal(await note.count(), 0);
    // The free height of a washer, beside its field: Enter does not send it before it is kept.
    await by(washer, "plan-seating/a", ["seating.set.free-height", "51"]);
    await page.keyboard.press("Enter");
    assert.match(await note.textContent(), /^51 /);
    assert.equal(await page.locator(".setting .ask-back").count(), 1);
    // Sent by its button without a look, the bench asks once more.
    await save.click();
    await page.locator("main .wrong", { hasText: "far from" }).waitFor();
    assert.equal(await page.locator('[name="given.seating.set.free-height"]').inputValue(), "51");
    const { events } = await fay.get(`/api/jobs/${washer}`);
    assert.equal(events.length, 1);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("without script a reading that is far off is asked back before it is saved", async () => {
  const { job, page } = await atHeights("Fay", { javaScriptEnabled: false });
  const save = async () => {
    const button = page.locator("[data-evidence-form] [data-primary]");
    await Promise.all([page.waitForEvent("load"), button.click()]);
  };
  try {
    const typed = heights().slice(0, 8).with(2, "109.9");
    for (const [nth, one] of typed.entries()) await cells(page).nth(nth).fill(one);
    await page.locator("select[name=gauge]").selectOption({ index: 1 });
    await save();
    assert.match(await page.locator(".wrong").textContent(), /One reading is far from/);
    assert.equal(await page.locator(".ask-back").count(), 1);
    const back = cells(page).nth(2);
    assert.equal(await back.getAttribute("aria-invalid"), "true");
    assert.equal(await back.inputValue(), "109.9");
    assert.equal((await events(job, "recorded")).length, 0);
    // Another slip is asked back too; the first one is kept as it is.
    await cells(page).nth(5).fill("0.9");
    await save();
    assert.match(await page.locator(".wrong").textContent(), /One reading is far from/);
    assert.equal(await page.locator(".ask-back").count(), 2);
    await save();
    assert.equal(await page.locator(".wrong").count(), 0);
    assert.equal((await events(job, "recorded")).length, 1);
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

test("whoever was too slow, or came too often, goes up again by itself and is saved once", async () => {
  const { job, page } = await atHeights();
  try {
    await cells(page).first().focus();
    await gaugeTypes(page, heights().slice(0, 8));
    await page.locator("select[name=gauge]").selectOption({ index: 1 });
    const answers = [408, 429, 503];
    await page.route("**/steps/height/a", (route) => {
      const status = route.request().method() === "POST" ? answers.shift() : undefined;
      return status ? route.fulfill({ status, body: "" }) : route.continue();
    });
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.locator("section.verdict").first().waitFor();
    assert.deepEqual(answers, []);
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
      // With script what was typed is put back once the page is read, and said to be unsaved then.
      const laidOut = (count) =>
        page.waitForFunction(
          ([wanted, scripted]) =>
            document.querySelectorAll("input[data-reading]").length === wanted &&
            (!scripted || document.querySelector('[data-saved="typed"]')),
          [count, javaScriptEnabled],
        );
      const layOut = async (what, count) => {
        await page.locator(`button[name="lay-out"][value$="${what}=${count}"]:visible`).click();
        await laidOut({ rounds: 8 * count, places: 2 * count }[what]);
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
        await Promise.all([page.waitForEvent("load"), page.keyboard.press("Enter")]);
        assert.equal((await values())[4], "11.05");
        assert.equal((await events(job, "recorded")).length, 0);
      } else {
        await page.goto(page.url().split("?")[0]);
        await laidOut(8);
        assert.equal((await values())[4], "11.05");
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
    assert.match(JSON.stringify(events.at(-1)), /Oil drained: 1,9 US gal/);
    await page.goto(`${bench.url}/jobs/${job}/steps/drain`);
    await page.locator("[data-recorded] dd", { hasText: "1,9 US gal" }).waitFor();
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("what can't be read is told at its field in words, with script and without", async () => {
  for (const javaScriptEnabled of [true, false]) {
    const job = await fay.open(told);
    await byApi(fay, told, job, (next) => next.step === "drain");
    const page = await tabletIn(chromium, { javaScriptEnabled });
    try {
      await signIn(page, bench, "Fay");
      await page.goto(`${bench.url}/jobs/${job}/steps/drain`);
      await page.locator('[name="given.drained"]').fill("7 parsec");
      await page.locator('[name="given.oil-look"]').fill("grey");
      await page.locator("[data-evidence-form] [data-primary]").click();
      await page.locator(".wrong", { hasText: "“Oil drained”" }).waitFor();
      const field = page.locator('[name="given.drained"]');
      assert.equal(await field.getAttribute("aria-invalid"), "true");
      const id = await field.getAttribute("aria-describedby");
      assert.match(await page.locator(`[id="${id}"]`).textContent(), /parsec/);
      assert.equal(await field.inputValue(), "7 parsec");
      assert.deepEqual(page.broken, []);
    } finally {
      await page.context().close();
    }
  }
});

test("settings of a check are typed in the unit beside their field", async () => {
  const job = await fay.open(told);
  await byApi(fay, told, job, (next) => next.step === "choose-agent");
  const page = await tabletIn(chromium);
  const { settings } = told.at("choose-agent", "a")[0];
  try {
    await signIn(page, bench, "Fay");
    const here = `${bench.url}/jobs/${job}/steps/choose-agent/a`;
    const unit = (name) => page.locator(`[data-setting="${name}"] .unit`).textContent();
    await page.goto(here);
    assert.deepEqual([await unit("bay"), await unit("room")], ["m3", "degC"]);
    await page.context().addCookies([{ name: "ringtrue-units", value: "in", url: bench.url }]);
    await page.goto(here);
    assert.deepEqual([await unit("bay"), await unit("room")], ["ft3", "degF"]);
    for (const [name, typed] of Object.entries({ ...settings, bay: "2100", room: "68" })) {
      await page.locator(`[data-setting="${name}"]`).locator("input").fill(typed);
    }
    await page.locator("[data-evidence-form] [data-primary]").click();
    await page.locator("[data-recorded] dd", { hasText: "bay 2100 ft3" }).waitFor();
    await page.locator("[data-recorded] dd", { hasText: "room 68 degF" }).waitFor();
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("what others recorded and the history are told in the words of the step", async () => {
  const job = await fay.open(told);
  const page = await tabletIn(chromium);
  try {
    await signIn(page, bench, "Cam");
    await page.goto(`${bench.url}/jobs/${job}/steps/make-safe`);
    const no = (name) => ({ kind: "tick", name, answer: "no" });
    const given = [no("locked-out"), no("pressure-off")];
    await fay.act(job, { kind: "record", step: "make-safe", half: null, given });
    const asked = /Blocked, locked out and tagged: NO; Pressure let off, vent open: NO/;
    await page.locator("[data-news]", { hasText: asked }).waitFor();
    await page.reload();
    const verdict = page.locator("section.verdict", { hasText: "Answered no" });
    const listed = /Answered no: “Blocked, locked out and tagged”, “Pressure let off, vent open”;/;
    assert.match(await verdict.textContent(), listed);
    await page.goto(`${bench.url}/jobs/${job}/history`);
    const says = (await page.locator(".event .says").allTextContents()).join("\n");
    assert.match(says, asked);
    assert.match(says, listed);
    assert.doesNotMatch(says, /locked-out|pressure-off|make-safe/);
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("what is solved begins with its page; a save that waits says so, and is done once", async () => {
  const bench = await Bench.withPeople();
  const pages = [];
  /** Another friction than the page began with: what is saved is not solved yet. */
  const record = async (wet, options) => {
    const page = await tabletIn(chromium, options);
    pages.push(page);
    await signIn(page, bench, "Fay");
    await page.goto(`${bench.url}/jobs/${job}/steps/plan-seating/a`);
    const form = page.locator("details.record");
    if ((await form.getAttribute("open")) === null) await form.locator("> summary").click();
    await page.locator('[name="given.as-in-file"][value="yes"]').check();
    await page.locator('[data-setting="wet"] input').fill(wet);
    return page;
  };
  const button = (page) => page.locator("[data-evidence-form] [data-primary]");
  const verdict = (page) => page.locator("section.verdict").first().waitFor({ timeout: 120_000 });
  await bench.bringIn(told.gauges);
  let fay = await bench.tablet("Fay");
  const job = await fay.open(told);
  /** Nothing is solved, and nobody is signed in. */
  const afresh = async () => {
    await bench.unsolved();
    fay = await bench.tablet("Fay");
  };
  const kinds = async () => {
    const { events } = await fay.get(`/api/jobs/${job}`);
    const here = events.filter((one) => one.step === "plan-seating");
    return here.map((one) => one.kind);
  };
  try {
    await byApi(fay, told, job, (next) => next.step === "plan-seating");
    await afresh();
    const page = await record("0.29");
    for (let turn = 0; bench.solved === 0; turn += 1) {
      assert.ok(turn < 1200, "nothing was solved ahead");
      await page.waitForTimeout(100);
    }
    assert.deepEqual(await kinds(), []);
    await button(page).click();
    const line = page.locator('[data-saved="saving"]');
    await line.locator("progress").waitFor();
    assert.match(await line.textContent(), /saved as soon as that is done/);
    // What the page began with goes before it.
    await line.locator(".parts", { hasText: /^\d of \d parts$/ }).waitFor({ timeout: 120_000 });
    // The bench is there for others meanwhile, and the same sent again waits with it.
    await fay.get("/api/jobs");
    await verdict(page);
    await page.locator("[data-report] .drawing svg").first().waitFor();
    assert.deepEqual(await kinds(), ["recorded", "assessed"]);
    // What was solved is gone: the page says so, has it solved, and is there again.
    await afresh();
    await signIn(page, bench, "Fay");
    await page.goto(`${bench.url}/jobs/${job}/steps/plan-seating/a`);
    await page.locator("[data-solving]").waitFor();
    // Without script a save waits for the same.
    const bare = await record("0.29", { javaScriptEnabled: false });
    await button(bare).click({ noWaitAfter: true });
    await page.locator("[data-report]").waitFor({ timeout: 120_000 });
    await bare.locator("[data-report]").waitFor({ timeout: 120_000 });
    assert.deepEqual(await kinds(), ["recorded", "assessed", "recorded", "assessed"]);
    pages.forEach((page) => assert.deepEqual(page.broken, []));
  } finally {
    for (const page of pages) await page.context().close();
    await bench.end();
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

test("an untouched session locks by itself and covers the page", async () => {
  const { page } = idle;
  await page.locator("dialog[data-locked]").waitFor({ timeout: 75_000 });
  assert.ok(await page.locator('input[name="given.locked-out"][value="yes"]').isChecked());
  await page.locator("dialog input").fill(people.Fay[1]);
  await page.locator("dialog button").click();
  await page.locator("dialog").waitFor({ state: "detached" });
  assert.ok(await page.locator('input[name="given.locked-out"][value="yes"]').isChecked());
  assert.deepEqual(page.broken, []);
});
