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
  window.setTimeout(() => {
    if (line.textContent === text) line.textContent = "";
  }, 6000);
}

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
