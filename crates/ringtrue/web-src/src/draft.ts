// What is typed into a form of evidence, kept on the tablet until the bench has it.

/** Text of a field: its name, which one of that name, and what stands in it. */
type Typed = [name: string, nth: number, text: string];

export interface Draft {
  /** What was typed. */
  typed: Typed[];
  /** Sent, and no answer came: the same goes up again, under the same key. */
  sent: { key: string; expected: string } | null;
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

/** What a fresh page shows in a field. */
function shown(field: Field): string {
  if (field instanceof HTMLSelectElement) {
    return [...field.options].find((option) => option.defaultSelected)?.value ?? "";
  }
  return isTicked(field) ? (field.defaultChecked ? field.value : "") : field.defaultValue;
}

const textOf = (field: Field): string =>
  isTicked(field) && !field.checked ? "" : field.value;

const place = (): string => `ringtrue-draft ${location.pathname}`;

export function typedIn(form: HTMLFormElement): Typed[] {
  const typed: Typed[] = [];
  const counts = new Map<string, number>();
  for (const field of fieldsOf(form)) {
    const nth = counts.get(field.name) ?? 0;
    counts.set(field.name, nth + 1);
    if (textOf(field) !== shown(field)) typed.push([field.name, nth, textOf(field)]);
  }
  return typed;
}

/** Keeps what is typed now; nothing typed and nothing sent is nothing to keep. */
export function keep(form: HTMLFormElement, sent: Draft["sent"]): void {
  const draft: Draft = { typed: typedIn(form), sent };
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
  const counts = new Map<string, number>();
  const typed = new Map(draft.typed.map(([name, nth, text]) => [`${name} ${nth}`, text]));
  let changed = false;
  for (const field of fieldsOf(form)) {
    const nth = counts.get(field.name) ?? 0;
    counts.set(field.name, nth + 1);
    const text = typed.get(`${field.name} ${nth}`);
    if (text === undefined || text === textOf(field)) continue;
    if (isTicked(field)) field.checked = text === field.value;
    else field.value = text;
    changed = true;
  }
  return changed;
}
