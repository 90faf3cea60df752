// The form that builds a joint: drawn and checked while it is typed, kept when it is not saved,
// whole without script, by keyboard alone.
import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, kept, root, signIn, tabletIn } from "./bench.mjs";
import { enter, tabTo } from "./hands.mjs";
import { Told } from "./told.mjs";

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

/** What a starter holds, by the name of its field in a half: lists of corners one by one. */
async function sizesOf(loadRing) {
  const text = await bench.command(["new", "seal", "--load-ring", loadRing]);
  const found = new Map();
  let table = "";
  for (const line of text.split("\n")) {
    table = /^\[(.+)\]$/.exec(line)?.[1] ?? table;
    const [, key, value] = /^(\w+) = "?(.*?)"?$/.exec(line) ?? [];
    if (!key || key === "schema" || table === "decision") continue;
    const path = table ? `${table}.${key}` : key;
    if (key === "origin") found.set("limits.origin", value);
    else if (key !== "outline") found.set(path, value);
    else {
      [...value.matchAll(/\["([^"]+)", "([^"]+)"\]/g)].forEach(([, radius, axial], at) => {
        found.set(`${path}[${at + 1}].radius`, radius);
        found.set(`${path}[${at + 1}].axial`, axial);
      });
    }
  }
  return found;
}

/** Types a value into a field of half a, or chooses it. */
async function put(page, path, value) {
  const one = field(page, `half.a.seal.${path}`);
  const chosen = await one.evaluate((one) => one.tagName === "SELECT");
  return chosen ? one.selectOption(value) : one.fill(value);
}

for (const loadRing of ["conical-washer", "toric"]) {
  test(`a joint with a ${loadRing} is built from its sizes`, async () => {
    const page = await form({ size: "small" });
    try {
      await page.locator('[data-half="a"] summary').click();
      await put(page, "load_ring", loadRing);
      const other = { toric: "conical_washer.material", "conical-washer": "toric.material" };
      await field(page, `half.a.seal.load_ring.${other[loadRing]}`).waitFor({ state: "hidden" });
      const sizes = await sizesOf(loadRing);
      for (const [path, value] of sizes) await put(page, path, value);
      await drawn(page, "a").waitFor();
      const shown = await page.locator('[data-drawing="a"]').innerHTML();
      assert.match(shown, loadRing === "toric" ? /free 12/ : /conical washer/);
      for (const [name, text] of typed) {
        if (name.startsWith("half.")) continue;
        const one = field(page, name);
        const chosen = await one.evaluate((one) => one.tagName === "SELECT");
        await (chosen ? one.selectOption({ label: text }) : one.fill(text));
      }
      // The gap that these dimensions make is within the seal's own limits or is said not to be.
      for (const name of ["gap.limits.min", "gap.limits.max"]) await field(page, name).fill("");
      await field(page, "half.b.from").selectOption("a");
      await drawn(page, "joint").waitFor();
      mkdirSync(join(kept, "small"), { recursive: true });
      const picture = join(kept, "small", `build-${loadRing}.png`);
      await page.screenshot({ path: picture, fullPage: true });
      await page.locator("[data-primary]").click();
      await page.waitForURL(/\/jobs\/\d{8}-/);
      const job = await page.locator("[data-job]").first().getAttribute("data-job");
      const { steps } = await (await bench.tablet("Fay")).get(`/api/jobs/${job}`);
      const has = (step) => steps.some((one) => one.step === step);
      assert.equal(has("edge-down-on-ring"), loadRing === "conical-washer");
      assert.equal(has("mount-toric"), loadRing === "toric");
      assert.deepEqual(page.broken, []);
    } finally {
      await page.context().close();
    }
  });
}

test("a washer's corners are checked one by one, and half a corner wants its other half", async () => {
  const page = await form();
  try {
    await page.locator('[data-half="a"] summary').click();
    await put(page, "load_ring", "conical-washer");
    const corner = (n, part) => `load_ring.conical_washer.outline[${n}].${part}`;
    const sizes = await sizesOf("conical-washer");
    for (const [path, value] of sizes) {
      if (path !== corner(2, "axial")) await put(page, path, value);
    }
    const name = (n, part) => `half.a.seal.${corner(n, part)}`;
    await put(page, corner(1, "radius"), "104 parsec");
    await wrongAt(page, name(1, "radius")).filter({ hasText: "parsec" }).waitFor();
    assert.equal(await page.locator('[aria-invalid="true"]').count(), 1);
    await put(page, corner(1, "radius"), "104 mm");
    // Missing is told once it is sent.
    await page.locator("[data-primary]").click();
    await wrongAt(page, name(2, "axial")).filter({ hasText: "wanted" }).waitFor();
    // Named the other way round, the section says so.
    await put(page, corner(2, "axial"), "0 mm");
    await put(page, corner(2, "radius"), "120 mm");
    await put(page, corner(2, "axial"), "9 mm");
    await put(page, corner(3, "radius"), "108 mm");
    await put(page, corner(3, "axial"), "0 mm");
    await wrongAt(page, name(1, "radius")).filter({ hasText: "side" }).waitFor();
    // A toric in its place asks for a toric's sizes, and what was typed of the washer is still there.
    await put(page, "load_ring", "toric");
    await field(page, name(1, "radius")).waitFor({ state: "hidden" });
    const section = "half.a.seal.load_ring.toric.section_diameter";
    await wrongAt(page, section).filter({ hasText: "wanted" }).waitFor();
    assert.equal(await field(page, name(1, "radius")).inputValue(), "104 mm");
    assert.deepEqual(page.broken, []);
  } finally {
    await page.context().close();
  }
});

test("a job takes a procedure of the library where one is chosen", async () => {
  const own = join(bench.folder, "own.toml");
  const shipped = await bench.command(["new", "procedure"]);
  const text = shipped
    .replace(/^name = .*$/m, 'name = "as our shop does it"')
    .replace('title = "Make the machine safe"', 'title = "Make the carrier safe"');
  writeFileSync(own, text);
  await bench.bringIn([own]);
  const page = await tabletIn(chromium);
  try {
    await signIn(page, bench, "Fay");
    const { joint, files } = Told.of("toric");
    for (const [chosen, title] of [
      ["as our shop does it", "Make the carrier safe"],
      ["the one that ships for the load ring", "Make the machine safe"],
    ]) {
      await page.goto(`${bench.url}/jobs/new`);
      await page.locator("#joint").setInputFiles(joint);
      await page.locator("#files").setInputFiles(files);
      await page.locator("#procedure-from").selectOption({ label: chosen });
      await page.locator("main button.primary").click();
      await page.waitForURL(/\/jobs\/\d{8}-/);
      await page.locator(".next .primary", { hasText: title }).waitFor();
    }
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

test("without script a washer is chosen, drawn and typed", async () => {
  const page = await form({ javaScriptEnabled: false, size: "small" });
  try {
    await page.locator('[data-half="a"] summary').click();
    await put(page, "load_ring", "conical-washer");
    const draw = () =>
      Promise.all([page.waitForEvent("load"), page.locator("[data-draw]").click()]);
    await draw();
    const material = "half.a.seal.load_ring.conical_washer.material";
    await field(page, material).waitFor();
    for (const [path, value] of await sizesOf("conical-washer")) await put(page, path, value);
    await draw();
    await drawn(page, "a").waitFor();
    assert.equal(await field(page, material).inputValue(), "NBR");
    assert.equal(await page.locator('[data-half="a"] [aria-invalid="true"]').count(), 0);
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
