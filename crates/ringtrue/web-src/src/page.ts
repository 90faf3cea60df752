// What every script needs of a page: its words, its job, the line that is read out.

const words = new Map<string, string>();
const list = document.querySelector<HTMLTemplateElement>("template[data-words]");
for (const one of list?.content.querySelectorAll<HTMLElement>("[data-word]") ?? []) {
  words.set(one.dataset["word"] ?? "", one.textContent ?? "");
}

/** A text of the language file, with values where it names them. */
export function word(key: string, values: Record<string, string | number> = {}): string {
  const text = words.get(key) ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

/** Is anybody signed in here? */
export const signedIn = list !== null;

/** What writes carry. */
export function csrf(): string {
  return document.querySelector<HTMLMetaElement>('meta[name="csrf-token"]')?.content ?? "";
}

/** The job of this page, with the number of events that the page knows of. */
export function job(): { id: string; expected: number } | null {
  const head = document.querySelector<HTMLElement>("[data-job]");
  if (!head) return null;
  return { id: head.dataset["job"] ?? "", expected: Number(head.dataset["expected"]) };
}

/** Says something to whoever listens instead of looking; it is shown for a while, too. */
export function say(text: string): void {
  const line = document.querySelector<HTMLElement>("[data-say]");
  if (!line) return;
  line.textContent = text;
  const clear = (): void => keepClear(line);
  clear();
  window.addEventListener("scroll", clear, { passive: true });
  window.addEventListener("resize", clear);
  window.setTimeout(() => {
    window.removeEventListener("scroll", clear);
    window.removeEventListener("resize", clear);
    if (line.textContent === text) line.textContent = "";
  }, 6000);
}

/** By how much the line is moved up while it lies on something that a hand may want, px. */
const A_STEP = 8;

/** Puts the shown line where it lies on no control: as near to the foot as there is room. */
function keepClear(line: HTMLElement): void {
  line.style.bottom = "";
  line.style.visibility = "";
  const controls = "a, button, input, select, textarea, summary, label:has(input)";
  const taken = [...document.querySelectorAll(controls)].map((one) => one.getBoundingClientRect());
  const own = line.getBoundingClientRect();
  const beside = taken.filter((one) => one.left < own.right && one.right > own.left);
  const isFree = (top: number): boolean =>
    beside.every((one) => one.bottom <= top || one.top >= top + own.height);
  for (let top = own.top; top > 0; top -= A_STEP) {
    if (!isFree(top)) continue;
    line.style.bottom = `${window.innerHeight - top - own.height}px`;
    return;
  }
  // No room anywhere: it is heard, and what it says of a form stands in the form.
  line.style.visibility = "hidden";
}

/** The unit that a bare number in a field is taken in: the one that stands beside it. */
export function unitOf(field: HTMLElement): string {
  const beside = field.parentElement?.querySelector(":scope > .unit");
  if (beside) return beside.textContent?.trim() ?? "";
  return field.closest<HTMLElement>("[data-unit]")?.dataset["unit"] ?? "";
}

/** Is it a number alone, without a unit? */
export const isBare = (text: string): boolean =>
  /\d/.test(text) && /^[\d.,+\-\u2212\/ eE]+$/.test(text);

/** A new element with a class and a text. */
export function made<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  name: string,
  text = "",
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  if (name) element.className = name;
  // What stands between two backticks is set apart, as on the pages that the bench makes.
  text.split(/`([^`]*)`/).forEach((part, at) => {
    if (at % 2 === 0) return element.append(part);
    element.append(Object.assign(document.createElement("code"), { textContent: part }));
  });
  return element;
}

/** Does it once the hand rests for a moment. */
export function rested(what: () => void, milliseconds: number): () => void {
  let timer = 0;
  return () => {
    window.clearTimeout(timer);
    timer = window.setTimeout(what, milliseconds);
  };
}
