// Hands on a page: the keyboard alone, or a finger.
import { beside, fieldsAt, passphraseOf, roundsAt } from "./walk.mjs";

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
  for (let press = 0; press < 120; press += 1) {
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
    const second = document.querySelector('[data-kind="second-person"]');
    return {
      ...step.dataset,
      wrong: document.querySelector("[role=alert]:not([hidden])")?.textContent.trim() ?? "",
      seconded: !second || !second.querySelector("form"),
      recorded: step.querySelector(".given") !== null,
    };
  });

/** What is to be done on a step's page: record, second or sign; or nothing but to go on. */
function turn({ standing, seconded, recorded }) {
  if (standing === "unsigned") return "sign";
  if (standing === "done" || standing === "overridden") return "go";
  return recorded && !seconded ? "second" : "record";
}

/** One page, with the keyboard alone. */
async function keys(page, here) {
  const deed = turn(here);
  if (deed === "go") {
    await tabTo(page, (at) => at.goes);
    return enter(page);
  }
  const fields = deed === "record" ? fieldsAt(here.step, here.half) : new Map();
  const rounds = deed === "record" ? roundsAt(here.step, here.half) : 1;
  if (rounds > 1) {
    await tabTo(page, (at) => at.name === "lay-out" && at.value.endsWith(`rounds=${rounds}`));
    await enter(page);
  }
  if (deed === "second") {
    fields.set("second-name", [beside]);
    fields.set("second-passphrase", [passphraseOf(beside)]);
  }
  await tabTo(page, async (at) => {
    const typed = at.deed === deed ? fields.get(at.name)?.[at.nth < 0 ? 0 : at.nth] : undefined;
    const mine = at.type === "radio" ? fields.get(at.name)?.[0] : typed;
    if (mine !== undefined && at.deed === deed) await answer(page, at, mine);
    return at.tag === "button" && at.deed === deed && at.name !== "lay-out";
  });
  return enter(page);
}

/** One page, with a finger. */
async function taps(page, here) {
  const deed = turn(here);
  const coming = () => page.waitForEvent("framenavigated");
  if (deed === "go") {
    await Promise.all([coming(), page.locator("[data-next-href]").tap()]);
    return page.waitForLoadState();
  }
  const form = page.locator(`form:has(input[name=deed][value=${deed}])`);
  const fields = deed === "record" ? fieldsAt(here.step, here.half) : new Map();
  if (deed === "second") {
    fields.set("second-name", [beside]);
    fields.set("second-passphrase", [passphraseOf(beside)]);
  }
  const rounds = deed === "record" ? roundsAt(here.step, here.half) : 1;
  if (rounds > 1) {
    const button = page.locator(`button[name="lay-out"][value$="rounds=${rounds}"]`);
    await Promise.all([coming(), button.tap()]);
    await page.waitForLoadState();
  }
  for (const [name, list] of fields) {
    for (const [nth, typed] of list.entries()) {
      const field = form.locator(`[name="${name}"]`).nth(nth);
      const is = await field.evaluate((one) => one.type);
      if (typeof typed === "object") {
        await field.setInputFiles(typed.file);
      } else if (is === "radio") {
        await form.locator(`label:has([name="${name}"][value="${typed}"])`).tap();
      } else if (is === "checkbox") {
        await field.tap();
      } else if (is === "select-one") {
        const options = field.locator("option");
        const at = (await options.allTextContents()).findIndex((o) => o.startsWith(typed));
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
 * Goes on from a job's page, step by step, until `stop` says so or all is done; `seen` is shown
 * each page. Gives the number of pages.
 */
async function walk(page, hand, { stop = () => false, seen = async () => {} } = {}) {
  let before = "";
  for (let pages = 0; pages < 220; pages += 1) {
    const here = await stepOf(page);
    if (!here) return pages;
    if (stop(here)) return pages;
    if (here.wrong) throw new Error(`${here.step} ${here.half ?? ""}: ${here.wrong}`);
    const now = `${here.step} ${here.half} ${turn(here)} ${here.standing}`;
    if (now === before) throw new Error(`nothing comes of ${now}`);
    before = now;
    await seen(here);
    await hand(page, here);
  }
  throw new Error("this job does not come to its end");
}

export const byKeyboard = (page, more) => walk(page, keys, more);
export const byTouch = (page, more) => walk(page, taps, more);
