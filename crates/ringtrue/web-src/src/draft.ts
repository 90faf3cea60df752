// What is typed into a form of evidence, kept on the tablet until the bench has it.

import { isBare, unitOf } from "./page.js";

/** Text of a field: its name, which one of that name, what stands in it, and the unit beside it. */
type Typed = [name: string, which: string, text: string, unit: string];

export interface Draft {
  /** What was typed. */
  typed: Typed[];
  /** Sent, and no answer came: the same goes up again, under the same key. */
  sent: { key: string; expected: string } | null;
  /** How the fields were laid out: places and rounds. */
  layout: string;
}

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** Fields that are kept: all that a hand fills in, but no files and nothing secret. */
export function fieldsOf(form: HTMLFormElement): Field[] {
  const fields = [...form.elements].filter(
    (one): one is Field =>
      one instanceof HTMLInputElement ||
      one instanceof HTMLSelectElement ||
      one instanceof HTMLTextAreaElement,
  );
  return fields.filter((one) => !["hidden", "file", "password"].includes(one.type));
}

const isTicked = (field: Field): field is HTMLInputElement =>
  field instanceof HTMLInputElement && (field.type === "radio" || field.type === "checkbox");

/** What a fresh page shows in a field. What a page was sent back with is typed, not shown. */
function shown(field: Field): string {
  if (field.form?.hasAttribute("data-typed")) {
    return field instanceof HTMLSelectElement ? (field.options[0]?.value ?? "") : "";
  }
  if (field instanceof HTMLSelectElement) {
    return [...field.options].find((option) => option.defaultSelected)?.value ?? "";
  }
  return isTicked(field) ? (field.defaultChecked ? field.value : "") : field.defaultValue;
}

const textOf = (field: Field): string =>
  isTicked(field) && !field.checked ? "" : field.value;

const place = (): string => `ringtrue-draft ${location.pathname}`;

/** The unit beside a field in which numbers are typed. */
const unitBeside = (field: Field): string =>
  field instanceof HTMLInputElement && !isTicked(field) ? unitOf(field) : "";

/** What was typed beside one unit, for a field that has another one beside it now. */
const under = (field: Field, text: string, unit: string): string =>
  unit && isBare(text) && unit !== unitBeside(field) ? `${text.trim()} ${unit}` : text;

/** Each field with what tells it from others of its name: place and round of its row, or its turn. */
function named(form: HTMLFormElement): [Field, string][] {
  const counts = new Map<string, number>();
  return fieldsOf(form).map((field) => {
    const nth = counts.get(field.name) ?? 0;
    counts.set(field.name, nth + 1);
    const row = field.closest<HTMLElement>("tr[data-angle]")?.dataset;
    return [field, row ? `${row["angle"]}/${row["round"]}` : String(nth)];
  });
}

export function typedIn(form: HTMLFormElement): Typed[] {
  const typed = named(form).filter(([field]) => textOf(field) !== shown(field));
  return typed.map(([field, which]) => [field.name, which, textOf(field), unitBeside(field)]);
}

/** How the fields of a form are laid out, as the page's address takes it. */
export function layoutOf(form: HTMLFormElement): URLSearchParams {
  const fields = [...form.querySelectorAll<HTMLInputElement>("input[data-layout]")];
  return new URLSearchParams(fields.map((field) => [field.name, field.value]));
}

/** Keeps what is typed now; nothing typed and nothing sent is nothing to keep. */
export function keep(form: HTMLFormElement, sent: Draft["sent"]): void {
  const draft: Draft = { typed: typedIn(form), sent, layout: layoutOf(form).toString() };
  try {
    if (draft.typed.length === 0 && !sent) localStorage.removeItem(place());
    else localStorage.setItem(place(), JSON.stringify(draft));
  } catch {
    // A full or forbidden storage: it stays on the page alone.
  }
}

export function forget(): void {
  localStorage.removeItem(place());
}

/** What was kept for this page. */
export function kept(): Draft | null {
  try {
    const text = localStorage.getItem(place());
    return text === null ? null : (JSON.parse(text) as Draft);
  } catch {
    return null;
  }
}

/** Puts it back; says whether anything changed. */
export function putBack(form: HTMLFormElement, draft: Draft): boolean {
  const typed = new Map(draft.typed.map((one) => [`${one[0]} ${one[1]}`, one]));
  let changed = false;
  for (const [field, which] of named(form)) {
    const was = typed.get(`${field.name} ${which}`);
    const text = was && under(field, was[2], was[3]);
    if (text === undefined || text === textOf(field)) continue;
    if (isTicked(field)) field.checked = text === field.value;
    else field.value = text;
    field.closest("details")?.setAttribute("open", "");
    changed = true;
  }
  return changed;
}
