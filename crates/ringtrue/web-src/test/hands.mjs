// Hands on a page: the keyboard alone, or a finger.
import { askedOf, beside, fieldsOf, layoutsOf, passphraseOf } from "./walk.mjs";

/** What has the focus. */
const focused = (page) =>
  page.evaluate(() => {
    const at = document.activeElement;
    const name = at.getAttribute("name") ?? "";
    const among = [...document.getElementsByName(name)].filter((one) => one.type === at.type);
    return {
      tag: at.tagName.toLowerCase(),
      type: at.getAttribute("type") ?? "",
      name,
      nth: among.indexOf(at),
      value: at.value ?? "",
      deed: at.form?.elements.namedItem("deed")?.value ?? "",
      folds: at.tagName === "SUMMARY" ? at.parentElement.className : "",
      href: at.getAttribute("href") ?? "",
      goes: at.hasAttribute("data-next-href"),
      main: at.closest("main") !== null,
    };
  });

/** Chooses files in the field that has the focus, with the keyboard. */
export async function choose(page, files) {
  // A key that comes while the page still settles opens nothing: a person presses again.
  for (let press = 0; press < 5; press += 1) {
    const opens = page.waitForEvent("filechooser", { timeout: 2500 }).catch(() => null);
    await page.keyboard.press("Space");
    const chooser = await opens;
    if (chooser) return chooser.setFiles(files);
  }
  throw new Error(`the keyboard opens no choice of files on ${page.url()}`);
}

/** Types into what has the focus, or chooses there. */
async function answer(page, at, typed) {
  if (typeof typed === "object") {
    await choose(page, typed.file);
  } else if (at.type === "radio") {
    await page.keyboard.press("Space");
  } else {
    await page.keyboard.type(typed);
  }
}

/** Goes through the page with Tab until `stop` says so. */
export async function tabTo(page, stop) {
  for (let press = 0; press < 160; press += 1) {
    await page.keyboard.press("Tab");
    const at = await focused(page);
    if (await stop(at)) return at;
  }
  throw new Error(`the keyboard does not reach it on ${page.url()}`);
}

/** Presses Enter on what has the focus, and waits for the page that comes. */
export async function enter(page) {
  const comes = page.waitForEvent("framenavigated");
  await page.keyboard.press("Enter");
  await comes;
  await page.waitForLoadState();
}

/** Where the page is. */
const stepOf = (page) =>
  page.evaluate(() => {
    const step = document.querySelector("[data-step]");
    if (!step) return null;
    return {
      ...step.dataset,
      units: document.documentElement.dataset.units,
      wrong: document.querySelector("[role=alert]:not([hidden])")?.textContent.trim() ?? "",
    };
  });

/** A job on its way: what is told, and how much of it is done at each place. */
class Way {
  constructor(told) {
    this.told = told;
    this.done = new Map();
  }

  /** What is to be done on a step's page: to sign, to go on, or what is told next. */
  turn({ step, half, standing }) {
    if (standing === "unsigned") return { verb: "sign" };
    if (standing === "done" || standing === "overridden") return { verb: "go" };
    const place = `${step} ${half ?? ""}`;
    const nth = this.done.get(place) ?? 0;
    this.done.set(place, nth + 1);
    const next = this.told.at(step, half)[nth];
    if (!next) throw new Error(`${place}: all is done that was told, and it is ${standing}`);
    return next;
  }
}

/** The fields of a deed on the page that is shown. */
async function fieldsHere(page, deed, units) {
  if (deed.verb === "second") {
    return new Map([
      ["second-name", [beside]],
      ["second-passphrase", [passphraseOf(beside)]],
    ]);
  }
  return deed.verb === "sign" ? new Map() : fieldsOf(deed, askedOf(await page.content()), units);
}

/** Fills a form with the keyboard and sends it; `form` is the deed that it holds. */
async function fill(page, fields, form) {
  await tabTo(page, async (at) => {
    if (!at.main || at.deed !== form) return false;
    const nth = at.type === "radio" || at.nth < 0 ? 0 : at.nth;
    const typed = fields.get(at.name)?.[nth];
    if (typed !== undefined && at.tag !== "button") await answer(page, at, typed);
    return at.tag === "button" && at.name !== "lay-out";
  });
  return enter(page);
}

/** One page, with the keyboard alone. */
async function keys(page, { units }, deed) {
  if (deed.verb === "go") {
    await tabTo(page, (at) => at.goes);
    return enter(page);
  }
  const layouts = deed.verb === "record" ? layoutsOf(deed, askedOf(await page.content())) : [];
  for (const layout of layouts) {
    await tabTo(page, (at) => at.name === "lay-out" && at.value === layout);
    await enter(page);
  }
  return fill(page, await fieldsHere(page, deed, units), deed.verb);
}

/** What another person does at a tablet of their own, with the keyboard: decide, or correct. */
async function byOther(page, tablet, deed) {
  const { pathname, origin } = new URL(page.url());
  const [, , job] = pathname.split("/");
  if (deed.verb === "override") {
    await tablet.goto(page.url());
    await tabTo(tablet, (at) => at.folds === "override");
    await tablet.keyboard.press("Enter");
    return fill(tablet, new Map([["why", [deed.why]]]), "override");
  }
  await tablet.goto(`${origin}/jobs/${job}/history`);
  const last = tablet.locator('.event[data-kind="recorded"]').first();
  const href = `/jobs/${job}/events/${await last.getAttribute("data-event")}/correct`;
  await tabTo(tablet, (at) => at.href === href);
  await enter(tablet);
  const { units } = await tablet.evaluate(() => ({ ...document.documentElement.dataset }));
  const fields = await fieldsHere(tablet, deed, units);
  return fill(tablet, fields.set("why", [deed.why]), "");
}

/** One page, with a finger. */
async function taps(page, { units }, deed) {
  const coming = () => page.waitForEvent("framenavigated");
  if (deed.verb === "go") {
    await Promise.all([coming(), page.locator("[data-next-href]").tap()]);
    return page.waitForLoadState();
  }
  const form = page.locator(`form:has(input[name=deed][value=${deed.verb}])`);
  const layouts = deed.verb === "record" ? layoutsOf(deed, askedOf(await page.content())) : [];
  for (const layout of layouts) {
    const button = page.locator(`button[name="lay-out"][value="${layout}"]:visible`);
    await Promise.all([coming(), button.tap()]);
    await page.waitForLoadState();
  }
  for (const [name, list] of await fieldsHere(page, deed, units)) {
    for (const [nth, typed] of list.entries()) {
      if (typed === undefined) continue;
      const field = form.locator(`[name="${name}"]`).nth(nth);
      const is = await field.evaluate((one) => one.type);
      if (typeof typed === "object") {
        await field.setInputFiles(typed.file);
      } else if (is === "radio") {
        await form.locator(`label:has([name="${name}"][value="${typed}"])`).tap();
      } else if (is === "checkbox") {
        await field.tap();
      } else if (is === "select-one") {
        // A word of a setting by what it is called in a file, all else by what is shown.
        const at = await field.evaluate(
          (one, word) =>
            [...one.options].findIndex((o) => o.value === word || o.text.startsWith(word)),
          typed,
        );
        await field.selectOption({ index: at });
      } else {
        const folded = page.locator("details.settings:not([open]) > summary", { hasText: "" });
        if (!(await field.isVisible())) await folded.first().tap();
        await field.tap();
        await field.fill(typed);
      }
    }
  }
  const button = form.locator("button").last();
  await Promise.all([coming(), button.tap()]);
  return page.waitForLoadState();
}

/**
 * Goes on from a job's page as it is told, step by step, until `stop` says so or all is done;
 * `seen` is shown each page, `tabletOf` gives the tablet of another person. Gives the number of
 * pages.
 */
async function walk(page, hand, told, more = {}) {
  const { stop = () => false, seen = async () => {}, tabletOf } = more;
  const way = new Way(told);
  for (let pages = 0; pages < 240; pages += 1) {
    const here = await stepOf(page);
    if (!here) return pages;
    if (stop(here)) return pages;
    if (here.wrong) throw new Error(`${here.step} ${here.half ?? ""}: ${here.wrong}`);
    await seen(here);
    const deed = way.turn(here);
    if (["override", "correct"].includes(deed.verb)) {
      await byOther(page, await tabletOf(deed.by), deed);
      await page.reload();
    } else {
      await hand(page, here, deed);
    }
  }
  throw new Error("this job does not come to its end");
}

export const byKeyboard = (page, told, more) => walk(page, keys, told, more);
export const byTouch = (page, told, more) => walk(page, taps, told, more);
