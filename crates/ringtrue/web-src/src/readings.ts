// Readings one after another: the gauge types like a keyboard and ends with Enter.

import { touched } from "./lock.js";
import { csrf, job, made, rested, say, unitOf, word } from "./page.js";

/** Places from which on the bench is asked for the ring. */
const ENOUGH = 3;
const SVG = "http://www.w3.org/2000/svg";

const number = (text: string): number | null => {
  const bare = text.trim().replace(",", ".").replace("\u2212", "-");
  return bare !== "" && Number.isFinite(Number(bare)) ? Number(bare) : null;
};

const bound = (text: string | undefined): number | null => (text ? number(text) : null);

/** What is typed into a field, in the unit beside it; another unit is the bench's to read. */
function valueOf(field: HTMLInputElement): number | null {
  const unit = unitOf(field);
  const typed = field.value.trim();
  return number(unit && typed.endsWith(unit) ? typed.slice(0, -unit.length) : typed);
}

/** Signs that are typed for others, as the bench takes them. */
const SAME: [RegExp, string][] = [
  [/[\u2212\u2013]/g, "-"],
  [/[\u00b5\u03bc]/g, "u"],
  [/\u00b0/g, "deg"],
  [/\u00b2/g, "2"],
  [/[\u00a0\u202f\u2009\u00b7]/g, " "],
];

/** A number, or a fraction, and what stands behind it. */
const NUMBER = /^[+-]?(?:(?:\d+[ -])?\d+\/\d+|(?:\d+[.,]?\d*|[.,]\d+)(?:e[+-]?\d+)?)(.*)$/i;

/** Is it no number, alone or with a unit that fits here? The bench would refuse it. */
function isUnread(field: HTMLInputElement): boolean {
  const fits = field.dataset["fits"];
  const typed = SAME.reduce((text, [sign, by]) => text.replace(sign, by), field.value.trim());
  if (fits === undefined || typed === "") return false;
  const unit = NUMBER.exec(typed)?.[1]?.trim().toLowerCase();
  return unit === undefined || (unit !== "" && !fits.toLowerCase().split("|").includes(unit));
}

function middle(values: number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const [low, high] = [sorted[sorted.length % 2 ? half : half - 1], sorted[half]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

/** What the readings of a row are of, where the row says so. */
const thing = (field: HTMLInputElement): string =>
  field.closest("tr")?.querySelector<HTMLSelectElement>("select[data-of]")?.value ?? "";

/** Is this reading to be asked back? By what the page says of where it may be expected. */
function strange(field: HTMLInputElement, all: HTMLInputElement[]): boolean {
  const value = valueOf(field);
  if (value === null) return false;
  const { low, high, spread, ratio, rises } = field.dataset;
  const [least, most] = [bound(low), bound(high)];
  if ((least !== null && value < least) || (most !== null && value > most)) return true;
  // Only readings of the same thing are held against each other.
  const same = all.filter((one) => one.name === field.name && thing(one) === thing(field));
  const known = same.map((one): [HTMLInputElement, number | null] => [one, valueOf(one)]);
  const others = known.filter(
    (one): one is [HTMLInputElement, number] => one[0] !== field && one[1] !== null,
  );
  const before = others.filter(([one]) => same.indexOf(one) < same.indexOf(field)).at(-1);
  if (rises !== undefined && before !== undefined && value <= before[1]) return true;
  const centre = middle(others.map(([, reading]) => reading));
  if (centre === null) return false;
  const [apart, times] = [bound(spread), bound(ratio)];
  if (apart !== null && Math.abs(value - centre) > apart) return true;
  const [one, other] = [Math.abs(value), Math.abs(centre)];
  return times !== null && one > 0 && other > 0 && (one > times * other || times * one < other);
}

/** Which of the fields of its name this is. */
const nth = (field: HTMLInputElement): number =>
  [...(field.form?.querySelectorAll(`input[name="${CSS.escape(field.name)}"]`) ?? [])].indexOf(field);

/** What says to the bench that a reading was asked back, as it stands there. */
const keptAs = (field: HTMLInputElement): string =>
  `${field.name} ${nth(field)} ${field.value.trim()}`;

const placeOf = (field: HTMLInputElement): Element | null =>
  field.closest("td, .setting, .field");

const noteOf = (field: HTMLInputElement): Element | null =>
  placeOf(field)?.querySelector(".ask-back") ?? null;

/** Has it been asked back as it stands there? Then it is kept. */
function isKept(field: HTMLInputElement): boolean {
  const kept = field.form?.querySelectorAll<HTMLInputElement>('input[name="kept"]') ?? [];
  return [...kept].some((one) => one.value === keptAs(field));
}

/** Asks a reading back, at its field: it stands far off, or it is no number. */
function askBack(field: HTMLInputElement): void {
  noteOf(field)?.remove();
  const says = isUnread(field) ? "live-not-read" : "live-ask-back";
  const note = made("p", "ask-back", word(says, { what: field.value, unit: unitOf(field) }));
  note.id = `ask-back-${field.name}-${nth(field)}`;
  note.setAttribute("role", "alert");
  field.setAttribute("aria-invalid", "true");
  field.setAttribute("aria-describedby", note.id);
  asked.set(field, field.value);
  placeOf(field)?.append(note);
}

/** It was asked back as it stands, and is sent so: whoever read it has looked. */
function keep(field: HTMLInputElement): void {
  const kept = made("input", "");
  Object.assign(kept, { type: "hidden", name: "kept", value: keptAs(field) });
  field.form?.append(kept);
}

/** Is it asked back on the page, as it stands there? */
const isAsked = (field: HTMLInputElement): boolean =>
  field.getAttribute("aria-invalid") === "true" && asked.get(field) === field.value;

/** What stood in a field when it was asked back. */
const asked = new WeakMap<HTMLInputElement, string>();

function settle(field: HTMLInputElement): void {
  field.removeAttribute("aria-invalid");
  field.removeAttribute("aria-describedby");
  noteOf(field)?.remove();
}

/** A ring from above that shows where to measure next; the paint mark is at the top. */
function guide(fields: HTMLInputElement[], next: HTMLInputElement | undefined): SVGElement {
  const make = (name: string, given: Record<string, string | number>): SVGElement => {
    const element = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(given)) element.setAttribute(key, String(value));
    return element;
  };
  const svg = make("svg", { viewBox: "0 0 120 120", role: "img" });
  const angleOf = (field: HTMLInputElement): number =>
    Number(field.closest("tr")?.dataset["angle"] ?? 0);
  const at = next ? word("live-next-place") + ` ${angleOf(next)}\u00b0` : "";
  svg.setAttribute("aria-label", at);
  svg.append(make("circle", { cx: 60, cy: 60, r: 44, class: "edge" }));
  svg.append(make("circle", { cx: 60, cy: 60, r: 34, class: "edge" }));
  svg.append(make("path", { d: "M60 6l4 8h-8z", class: "paint" }));
  const last = next ?? fields.at(-1);
  const round = last?.closest("tr")?.dataset["round"];
  for (const field of fields) {
    if (field.closest("tr")?.dataset["round"] !== round) continue;
    const angle = (Math.PI * angleOf(field)) / 180;
    const [x, y] = [60 - 39 * Math.sin(angle), 60 - 39 * Math.cos(angle)];
    const state = field === next ? "now" : field.value.trim() ? "read" : "open";
    svg.append(make("circle", { cx: x, cy: y, r: state === "now" ? 7 : 4, class: state }));
  }
  return svg;
}

/** Makes the readings of a form go in one after another, each asked back where it can't be right. */
export function readings(form: HTMLFormElement): void {
  // Settings are no readings, but known of, too.
  const known = "input[data-reading], .setting input[data-fits]";
  const expected = [...form.querySelectorAll<HTMLInputElement>(known)];
  if (expected.length === 0) return;
  const typed = "input[data-reading], input[data-uncertainty], select[data-of]";
  const steps = [...form.querySelectorAll<HTMLInputElement | HTMLSelectElement>(typed)];
  form.querySelectorAll<HTMLFieldSetElement>("fieldset[data-readings]").forEach(live);
  const on = (field: HTMLInputElement | HTMLSelectElement): void => {
    const rest = steps.slice(steps.indexOf(field) + 1);
    const next = rest.find((one) => one.value.trim() === "");
    const after = form.querySelector<HTMLElement>("select[name=gauge], [data-primary]");
    (next ?? after)?.focus();
    next?.scrollIntoView({ block: "nearest" });
  };
  form.addEventListener("keydown", (event) => {
    const field = event.target;
    if (event.key !== "Enter") return;
    if (field instanceof HTMLSelectElement && steps.includes(field) && field.value) {
      event.preventDefault();
      return on(field);
    }
    if (!(field instanceof HTMLInputElement)) return;
    const unread = expected.includes(field) && isUnread(field);
    const doubted = expected.includes(field) && strange(field, expected) && !isKept(field);
    if (unread || doubted || steps.includes(field)) event.preventDefault();
    // What is no number is asked back for as long as it stands there.
    if (unread || (doubted && !isAsked(field))) {
      askBack(field);
      // Only here: to select what was left would take the hand back from the field it went to.
      return field.select();
    }
    if (doubted) keep(field);
    if (expected.includes(field)) settle(field);
    if (steps.includes(field) && field.value.trim() !== "") on(field);
  });
  form.addEventListener("focusin", ({ target }) => {
    // Whoever goes on to another field has been asked. The button alone is no answer.
    if (!(target as Element).matches("input, select, textarea")) return;
    const left = expected.filter((field) => field !== target && isAsked(field));
    left.filter((field) => strange(field, expected) && !isKept(field)).forEach(keep);
  });
  form.addEventListener("change", (event) => {
    const field = event.target as HTMLInputElement;
    if (!expected.includes(field) || isKept(field)) return;
    if (!isUnread(field) && !strange(field, expected)) settle(field);
    else if (!isAsked(field)) askBack(field);
  });
}

/** Makes one set of readings live. */
function live(set: HTMLFieldSetElement): void {
  const form = set.closest("form");
  const fields = [...set.querySelectorAll<HTMLInputElement>("input[data-reading]")];
  const ring = set.querySelector<HTMLElement>("[data-ring-live]");
  if (!form || fields.length === 0) return;
  const spot = ring ? made("div", "guide") : null;
  if (spot) set.querySelector(".table")?.before(spot);
  const mark = (): void => {
    const focus = document.activeElement;
    const here = fields.find((one) => one === focus);
    const next = here ?? fields.find((one) => one.value.trim() === "");
    for (const row of set.querySelectorAll("tr[data-now]")) row.removeAttribute("data-now");
    next?.closest("tr")?.setAttribute("data-now", "");
    if (spot) spot.replaceChildren(guide(fields, next));
  };
  const draw = rested(() => void drawn(form, ring, fields), 350);
  set.addEventListener("focusin", mark);
  set.addEventListener("input", draw);
  form.addEventListener("restored", () => {
    mark();
    draw();
  });
  form.querySelector("select[name=gauge]")?.addEventListener("change", draw);
  mark();
  if (fields.some((one) => one.value.trim() !== "")) draw();
}

let latest = 0;

/** Asks the bench what the readings say so far, and shows its drawing. */
async function drawn(
  form: HTMLFormElement,
  ring: HTMLElement | null,
  fields: HTMLInputElement[],
): Promise<void> {
  const here = job();
  const read = fields.filter((field) => field.value.trim() !== "").length;
  if (!ring || !here || form.hasAttribute("data-frozen")) return;
  const step = document.querySelector<HTMLElement>("[data-step]");
  const shown = ring.querySelector(".so-far") ?? ring.appendChild(made("div", "so-far"));
  if (read < ENOUGH) {
    shown.replaceChildren(made("p", "help", word("live-not-drawn")));
    return;
  }
  const body = new FormData(form);
  for (const field of form.querySelectorAll<HTMLInputElement>('input[type="file"]')) {
    body.delete(field.name);
  }
  body.set("step", step?.dataset["step"] ?? "");
  body.set("half", step?.dataset["half"] ?? "");
  const mine = (latest += 1);
  try {
    const answer = await fetch(`/api/jobs/${here.id}/assess`, {
      method: "POST",
      headers: { "x-csrf-token": csrf() },
      body,
    });
    if (mine !== latest) return;
    touched();
    if (answer.ok) {
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const head = made("p", "help", word("live-drawn-at"));
      shown.replaceChildren(head, ...page.body.children);
      const verdict = page.querySelector(".verdict .word");
      if (verdict && read === fields.length) say(verdict.textContent ?? "");
    } else if (answer.status === 422) {
      const said = (await answer.json()) as { what: string };
      shown.replaceChildren(made("p", "help", said.what));
    }
  } catch {
    // Off the line: what was drawn last stays, and what is typed is kept.
  }
}
