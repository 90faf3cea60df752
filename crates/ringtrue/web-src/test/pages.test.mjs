// Every page: no violation found by axe in either theme, nothing wider than its window, and a
// picture at each size, kept in target/pages.
import AxeBuilder from "@axe-core/playwright";
import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bench, browser, kept, people, root, signIn, sizes, tabletIn } from "./bench.mjs";
import { Told } from "./told.mjs";
import { byApi } from "./walk.mjs";

const toric = Told.of("toric");
const washer = Told.of("conical-washer");
const chilled = Told.of("chilled-toric");

/** Addresses of the router's table that are read and hand out no page. */
const downloads = [
  "/library/{hash}/file",
  "/jobs/{id}/report.pdf",
  "/jobs/{id}/record.json",
  "/jobs/{id}/files/{hash}",
];

let chromium, bench, empty, fay, job, pages;
before(async () => {
  chromium = await browser();
  [bench, empty] = [await Bench.withPeople(), new Bench()];
  await empty.start();
  await bench.bringIn([...toric.gauges, ...toric.files, ...washer.gauges, ...chilled.gauges]);
  fay = await bench.tablet("Fay");
  job = await jobs();
  pages = allPages();
});
after(async () => {
  await chromium?.close();
  await bench?.end();
  await empty?.end();
});

/** Behind a step of half a: at the first that comes after it. */
function behind(step) {
  let seen = false;
  return (next) => {
    seen ||= next.step === step;
    return seen && next.step !== step;
  };
}

/** Jobs at different stages: begun, held, done and signed, with a washer, with a chilled toric. */
async function jobs() {
  const found = {};
  for (const name of ["held", "open", "measured", "done"]) found[name] = await fay.open(toric);
  found.washer = await fay.open(washer);
  await byApi(fay, toric, found.open, (next) => next.step === "height");
  await byApi(fay, toric, found.measured, (next) => next.step === "dry-out");
  await byApi(fay, toric, found.done);
  await fay.act(found.done, { kind: "sign" });
  await byApi(fay, washer, found.washer, (next) => next.step === "look-at-rubber-washer");
  [found.pressed, found.chilled] = [await fay.open(washer), await fay.open(chilled)];
  await byApi(fay, washer, found.pressed, behind("plan-seating"));
  await byApi(fay, chilled, found.chilled, behind("re-warm"));
  const no = (name) => ({ kind: "tick", name, answer: "no" });
  const given = [no("locked-out"), no("pressure-off")];
  await fay.act(found.held, { kind: "record", step: "make-safe", half: null, given });
  return found;
}

/** The first photo of a job's history. */
const photoOf = async (job) =>
  /\/jobs\/[^"]*\/files\/\w+/.exec(await fay.page(`/jobs/${job}/history`))[0];

/** A seal of the library, and its file with one size changed. */
const seal = () => `/library/${bench.gauges[toric.files[0]]}`;
const changed = (mass) => {
  const text = readFileSync(toric.files[0], "utf8").replace(/^mass = .*$/m, `mass = "${mass} kg"`);
  return { name: "frame-half.toml", mimeType: "application/toml", buffer: Buffer.from(text) };
};

/** Brings the changed file in, as far as what changes is shown. */
async function bringIn(page, mass) {
  await page.locator("#file").setInputFiles(changed(mass));
  await send(page);
}

/** Sends the form that is shown, and waits for the page that comes. */
async function send(page, button = "main button.primary") {
  await Promise.all([page.waitForEvent("framenavigated"), page.locator(button).first().click()]);
  await page.waitForLoadState();
}

/** Readings are typed before the picture is taken: the ring is to be on it. */
async function readings(page) {
  const cells = page.locator("input[data-reading]");
  const typed = ["11.06", "11.11", "11.09", "10.99", "10.93", "10.90", "10.91", "10.99"];
  for (const [nth, one] of typed.entries()) await cells.nth(nth).fill(one);
  await page.locator("select[name=gauge]").selectOption({ index: 1 });
  await cells.nth(6).focus();
  await page.locator(".so-far .drawing svg").first().waitFor();
}

/**
 * Another joint each time: none of them was solved before. That it is solved is not told: the page
 * would load anew while it is looked at.
 */
async function unsolved(page) {
  await page.route("**/section/progress", () => {}, { times: 1 });
  const own = `section_diameter = "${(12 + Math.random() / 10).toFixed(6)} mm"`;
  const files = toric.files.map((path) => {
    const text = readFileSync(path, "utf8").replace(/section_diameter = ".*"/, own);
    return [path.split("/").at(-1), text];
  });
  const sent = { joint: readFileSync(toric.joint, "utf8"), files: Object.fromEntries(files) };
  const other = (await fay.post("/api/jobs", sent)).job;
  await page.goto(`${bench.url}/jobs/${other}/section`);
  await page.locator("[data-solving]").waitFor();
}

const builtOf = (name, text) => async (page) => {
  await page.locator(`[name="half.a.from"]`).selectOption({ label: name });
  await page.locator(`[name="half.b.from"]`).selectOption("a");
  await page.locator('[name="service.speed"]').fill(text);
  await page.locator('form [data-drawing="joint"] svg').waitFor();
};

/** A section that is solved shows itself anew. */
const solved = (page) => page.locator("#gap-slider").waitFor({ timeout: 120_000 });

/** Pages by name: who looks at them, where they are, and what is done there first. */
function allPages() {
  const { held, open, measured, done } = job;
  const step = (job, place) => `/jobs/${job}/steps/${place}`;
  const first = (name, to) => ({ name, bench: empty, path: "/first", to });
  const nobody = (name, to) => ({ name, path: "/sign-in", to });
  const by = (who) => (name, path, to) => ({ name, who, path, to });
  const [fitter, checker, engineer, keeper] = ["Fay", "Cam", "Eli", "Kim"].map(by);
  const verdicts = {
    ...{ matching: "match-parts", flatness: "face-flatness/a", finish: "ramp-finish/a" },
    ...{ agent: "choose-agent/a", "height-verdict": "height/b", gap: "measure-stack" },
    ...{ load: "face-load", dry: "dry-out", aligned: "line-up", closed: "gap-closed" },
    ...{ leak: "leak-test", "signed-point": "accept-housing/a", "done-step": "first-photo" },
    ...{ seating: "plan-seating/a", pressure: "test-pressure", "no-report": "wipe-faces" },
  };
  return [
    first("first"),
    first("first-wrong", async (page) => {
      await page.locator("#name").fill("Kim");
      await page.locator("#passphrase").fill(people.Kim[1]);
      await page.locator("#again").fill("another one altogether");
      await send(page);
    }),
    nobody("sign-in"),
    nobody("sign-in-wrong", async (page) => {
      await page.locator("#name").fill("Fay");
      await page.locator("#passphrase").fill("not this one");
      await send(page);
    }),
    fitter("jobs", "/jobs"),
    fitter("jobs-held", "/jobs?which=held"),
    fitter("jobs-none", "/jobs?search=crusher"),
    fitter("start", "/jobs/new"),
    fitter("start-wrong", "/jobs/new", async (page) => {
      const buffer = Buffer.from('schema = "ringtrue/joint/1"\nname = "left"\nattitude = "lies"\n');
      const file = { name: "joint.toml", mimeType: "application/toml", buffer };
      await page.locator("#joint").setInputFiles(file);
      await send(page);
    }),
    fitter("build", "/jobs/build"),
    fitter("build-drawn", "/jobs/build", builtOf("final drive 260-15, frame side", "85")),
    fitter("build-wrong", "/jobs/build", async (page) => {
      await builtOf("final drive 260-15, frame side", "85 parsec")(page);
      await page.locator("[data-primary]").click();
      await page.locator("main .wrong").waitFor();
    }),
    fitter("build-washer", "/jobs/build", async (page) => {
      await page.locator('[data-half="a"] summary').click();
      await page.locator('[name="half.a.seal.load_ring"]').selectOption("conical-washer");
      await page.locator('[name="half.a.seal.load_ring.conical_washer.outline[1].radius"]').waitFor();
    }),
    fitter("job", `/jobs/${open}`),
    fitter("job-held", `/jobs/${held}`),
    fitter("job-signed", `/jobs/${done}`),
    fitter("job-washer", `/jobs/${job.washer}`),
    fitter("caution", step(open, "make-safe")),
    fitter("ticks", step(job.washer, "look-at-rubber-washer/a")),
    fitter("values", step(job.washer, "measure-free-height/a")),
    fitter("photo", step(held, "first-photo")),
    fitter("held", step(held, "make-safe")),
    fitter("refused", step(held, "part-halves"), async (page) => {
      await page.locator('[name="given.marked"][value="yes"]').check();
      await page.locator("[data-evidence-form] [data-primary]").click();
      await page.locator("main .wrong").waitFor();
    }),
    fitter("readings", step(open, "height/a"), readings),
    fitter("sizes", step(open, "measure-stack")),
    fitter("check", step(open, "leak-test")),
    fitter("second", step(measured, "measure-stack")),
    fitter("seating-form", step(open, "plan-seating/b")),
    fitter("seating-washer", step(job.pressed, "plan-seating/a"), async (page) => {
      // What an earlier step measured stands beside the field that takes it.
      const beside = await page.locator('[data-setting="free-height"] label').textContent();
      assert.match(beside, /measured in this job: 0\.200 in, 0\.203 in$/);
    }),
    fitter("chilled", step(job.chilled, "chill-toric/a")),
    fitter("warm-again", step(job.chilled, "re-warm/a")),
    fitter("asked-back", step(held, "measure-housing/b"), async (page) => {
      await page.locator('[name="given.depth"]').fill("2.81");
      await page.locator('[name="given.ramp-angle"]').fill("15.1");
      await page.locator(".ask-back").waitFor();
    }),
    fitter("backticks", step(open, "level-the-ring/a")),
    ...Object.entries(verdicts).map(([name, place]) => fitter(name, step(done, place))),
    fitter("history", `/jobs/${open}/history`),
    fitter("correct", `/jobs/${open}/events/2/correct`),
    fitter("sign", `/jobs/${open}/sign`),
    fitter("signed", `/jobs/${done}/sign`, async (page) => {
      await page.locator("details.record > summary").click();
    }),
    fitter("section", `/jobs/${measured}/section`, solved),
    fitter("section-washer", `/jobs/${job.washer}/section`, solved),
    fitter("section-solving", "/jobs", unsolved),
    fitter("try", `/jobs/${open}/try`),
    fitter("try-compared", `/jobs/${open}/try?hardness=50`, async (page) => {
      await page.locator("[data-compared] svg").waitFor({ timeout: 120_000 });
    }),
    fitter("edition", seal()),
    fitter("look", "/jobs", (page) => page.locator(".me > summary").click()),
    fitter("nowhere", "/nowhere"),
    fitter("no-job", "/jobs/20260101-00000000"),
    fitter("not-theirs", "/people"),
    checker("unlock", `/jobs/${open}`, async (page) => {
      await page.locator(".me > summary").click();
      await send(page, "form[data-lock] button");
      if (!page.url().includes("/unlock")) await page.goto(`${bench.url}/unlock`);
    }),
    checker("unlock-wrong", "/unlock", async (page) => {
      await page.locator("#passphrase").fill("not this one");
      await send(page);
    }),
    engineer("override", step(held, "make-safe"), async (page) => {
      await page.locator("details.override > summary").click();
    }),
    engineer("library", "/library"),
    engineer("bring-in", "/library", async (page) => {
      await bringIn(page, 2.4);
      await page.locator(".changes .new", { hasText: "2.4 kg" }).waitFor();
    }),
    engineer("bring-in-wrong", "/library", async (page) => {
      const buffer = Buffer.from('schema = "ringtrue/gauge/1"\nname = 3\n');
      const file = { name: "gauge.toml", mimeType: "application/toml", buffer };
      await page.locator("#file").setInputFiles(file);
      await send(page);
    }),
    keeper("edition-changed", "/library", async (page) => {
      await bringIn(page, 2.5);
      if (!/library\/\w+/.test(page.url())) await send(page);
      await page.locator(".changes .new", { hasText: "2.5 kg" }).waitFor();
    }),
    keeper("people", "/people"),
    keeper("people-wrong", "/people", async (page) => {
      await page.locator("section.narrow #name").fill("Fay");
      await page.locator('input[name=role][value="fitter"]').check();
      await page.locator("section.narrow #passphrase").fill("river stone coat ten");
      await page.locator("section.narrow #again").fill("river stone coat ten");
      await send(page, "section.narrow button.primary");
    }),
  ];
}

/** Goes through all pages, each as whoever it is for. */
async function through(options, look) {
  const only = process.env.PAGES?.split(",");
  for (const who of new Set(pages.map((one) => one.who))) {
    const page = await tabletIn(chromium, options);
    if (who) await signIn(page, bench, who);
    for (const one of pages) {
      if (one.who !== who || (only && !only.includes(one.name))) continue;
      try {
        await page.goto((one.bench ?? bench).url + one.path);
        await one.to?.(page);
        await look(page, one.name);
      } catch (error) {
        throw new Error(`${one.name}: ${error.message}`, { cause: error });
      }
    }
    assert.deepEqual(page.broken, []);
    await page.context().close();
  }
}

/** Each size in one theme, and axe in both; whatever is found on a page is told with its name. */
const ways = [
  { size: "wide", theme: "light", looks: [violations] },
  { size: "tall", theme: "dark", looks: [violations] },
  { size: "small", theme: "light", looks: [covered, reflowed] },
];

for (const { size, theme, looks } of ways) {
  const { width } = sizes[size];
  test(`pages fit a window of ${width}, ${theme}: targets fit a thumb, nothing is found`, async () => {
    mkdirSync(join(kept, size), { recursive: true });
    const found = [];
    await through({ size, theme }, async (page, name) => {
      if ((await widthOf(page)) > width) found.push(`${name} is ${await widthOf(page)} wide`);
      const all = await small(page);
      await page.screenshot({ path: join(kept, size, `${name}.png`), fullPage: true });
      for (const look of looks) all.push(...(await look(page)));
      found.push(...all.map((one) => `${name}: ${one}`));
    });
    assert.deepEqual(found, []);
  });
}

const widthOf = (page) => page.evaluate(() => document.documentElement.scrollWidth);

/** What axe finds. No page has frames of others, so that it needs no second page to look from. */
async function violations(page) {
  const { violations } = await new AxeBuilder({ page }).setLegacyMode(true).analyze();
  return violations.map(({ id, nodes }) => {
    return `${id}: ${nodes.map((node) => node.html).slice(0, 3).join(" | ")}`;
  });
}

/** What has the focus and lies under something else with all that it is (WCAG 2.2, 2.4.11). */
async function covered(page) {
  return page.evaluate(() => {
    const touched = "button, a[href], select, textarea, summary, input, [tabindex='0']";
    const all = [...document.querySelectorAll(touched)].filter((one) => {
      return one.checkVisibility() && one.type !== "hidden" && !one.disabled;
    });
    const hidden = all.filter((one) => {
      one.focus();
      if (document.activeElement !== one) return false;
      const { left, top, width, height } = one.getBoundingClientRect();
      const parts = [0.02, 0.25, 0.5, 0.75, 0.98];
      return !parts.some((x) => parts.some((y) => {
        const at = document.elementFromPoint(left + x * width, top + y * height);
        return at && (one.contains(at) || at.contains(one) && at.closest("label, summary"));
      }));
    });
    return hidden.map((one) => `covered when focused: ${one.outerHTML.slice(0, 90)}`);
  });
}

/** What does not fit 320 CSS pixels, or more space between letters, words and lines (1.4.10, 1.4.12). */
async function reflowed(page) {
  const was = page.viewportSize();
  const found = [];
  await page.setViewportSize({ width: 320, height: 640 });
  if ((await widthOf(page)) > 320) found.push(`${await widthOf(page)} wide in 320`);
  await page.setViewportSize(was);
  const cut = await page.evaluate(() => {
    const spaced = new CSSStyleSheet();
    spaced.replaceSync(`* { line-height: 1.5 !important; letter-spacing: .12em !important;
      word-spacing: .16em !important; } p { margin-bottom: 2em !important; }`);
    document.adoptedStyleSheets = [spaced];
    const clips = (one) => {
      const { overflowX, overflowY } = getComputedStyle(one);
      const cuts = (way, over) => ["hidden", "clip"].includes(way) && over > 1;
      return (
        cuts(overflowX, one.scrollWidth - one.clientWidth) ||
        cuts(overflowY, one.scrollHeight - one.clientHeight)
      );
    };
    const all = [...document.querySelectorAll("body *:not(svg *, svg)")];
    const found = all.filter((one) => one.checkVisibility() && clips(one));
    const wide = document.documentElement.scrollWidth;
    document.adoptedStyleSheets = [];
    const texts = found.map((one) => `cut when spaced: ${one.outerHTML.slice(0, 90)}`);
    return wide > window.innerWidth ? [...texts, `${wide} wide when spaced`] : texts;
  });
  return [...found, ...cut];
}

test("no page of the router's table is forgotten", async () => {
  const table = readFileSync(join(root, "crates/ringtrue/src/web/router.rs"), "utf8");
  const routes = [...table.matchAll(/read\(\(Page, "([^"]+)"\)/g)].map(([, path]) => path);
  assert.ok(routes.length > 20, String(routes.length));
  const isOf = (route, path) => {
    const [ours, theirs] = [route, path.split("?")[0]].map((one) => one.split("/"));
    const fits = (part, at) => part.startsWith("{") || part === theirs[at];
    return ours.length === theirs.length && ours.every(fits);
  };
  const paths = pages.map((one) => one.path);
  // The address by itself leads to the jobs.
  const pageless = ["/", ...downloads];
  const wanted = routes.filter((route) => !pageless.includes(route));
  // `{id}` and the like stand for anything: an address with less of it is the nearer one.
  const nearest = (path) => routes.filter((route) => isOf(route, path)).sort(byBraces)[0];
  const seen = new Set(paths.map(nearest));
  assert.deepEqual(wanted.filter((route) => !seen.has(route)), []);
  // What is left out is no page indeed.
  const { done } = job;
  const given = [`${seal()}/file`, `/jobs/${done}/report.pdf`, `/jobs/${done}/record.json`];
  for (const path of [...given, await photoOf(done)]) {
    assert.ok(downloads.some((route) => isOf(route, path)), path);
    const answer = await fetch(bench.url + path, { headers: { cookie: fay.cookie } });
    assert.ok(answer.ok && !/html/.test(answer.headers.get("content-type")), path);
  }
});

const byBraces = (one, other) => one.split("{").length - other.split("{").length;

/** What can be touched and is less than 48 px high or wide. */
const small = (page) =>
  page.evaluate(() => {
    const touched = "button, a[href], select, textarea, summary, input";
    const all = document.querySelectorAll(touched);
    const seen = [...all].filter((one) => {
      if (!one.checkVisibility() || one.type === "hidden") return false;
      if (one.closest(".skip, svg")) return false;
      // A radio button is touched by its label.
      const box = (one.closest("label") ?? one).getBoundingClientRect();
      return box.height > 0 && (box.height < 47.5 || box.width < 47.5);
    });
    return seen.map((one) => one.outerHTML.slice(0, 90));
  });
