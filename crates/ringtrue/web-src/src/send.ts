// Sends a form of evidence: exactly once, however often the line drops.

import * as draft from "./draft.js";
import { csrf, job, made, say, word } from "./page.js";
import { locked } from "./lock.js";
import { shrunk } from "./photo.js";

const LONGEST_WAIT = 4000;

/** The line beside the button that says how it stands. */
function line(form: HTMLFormElement): HTMLElement {
  const known = form.querySelector<HTMLElement>("[data-saved]");
  if (known) return known;
  const fresh = made("p", "saved");
  fresh.dataset["saved"] = "";
  fresh.setAttribute("role", "status");
  form.querySelector(".actions")?.before(fresh);
  return fresh;
}

function show(form: HTMLFormElement, state: "clean" | "typed" | "saving" | "waits"): void {
  const texts = {
    clean: "",
    typed: word("live-not-saved"),
    saving: word("live-saving"),
    waits: word("live-waits"),
  };
  const here = line(form);
  here.dataset["saved"] = state;
  here.textContent = texts[state];
  form.toggleAttribute("data-frozen", state === "saving" || state === "waits");
  for (const field of draft.fieldsOf(form)) {
    if ("readOnly" in field) field.readOnly = state === "saving" || state === "waits";
  }
}

/** How long a save may take before it is said what it waits for. */
const SOON = 600;

/** While a save waits for something to be worked out: says so, and how far that is. */
function follow(form: HTMLFormElement, key: string): () => void {
  const path = form.dataset["solves"];
  if (!path) return () => undefined;
  let stream: EventSource | undefined;
  const timer = window.setTimeout(() => {
    stream = new EventSource(`${path}/${encodeURIComponent(key)}`);
    stream.addEventListener("progress", (event) => {
      solving(form, JSON.parse((event as MessageEvent<string>).data) as Solving);
    });
    stream.addEventListener("done", () => stream?.close());
  }, SOON);
  return () => {
    window.clearTimeout(timer);
    stream?.close();
  };
}

interface Solving {
  solved: number;
  of: number;
}

/** The bar stands in the line that is read out, and is not read out each time that it moves. */
function solving(form: HTMLFormElement, now: Solving): void {
  const here = line(form);
  // Whoever says how far it is has got what was sent.
  if (here.dataset["saved"] === "waits") show(form, "saving");
  if (here.dataset["saved"] !== "saving") return;
  let bar = here.querySelector("progress");
  if (!bar) {
    bar = made("progress", "");
    bar.setAttribute("aria-label", word("live-solving"));
    const parts = made("span", "parts");
    parts.setAttribute("aria-hidden", "true");
    here.replaceChildren(made("span", "", word("live-solving")), bar, parts);
  }
  // Others may be before it: then nobody knows how far it is.
  if (now.of === 0) return;
  Object.assign(bar, { max: now.of, value: now.solved });
  const parts = here.querySelector(".parts");
  if (parts) parts.textContent = word("live-solving-parts", { n: now.solved, of: now.of });
}

const hidden = (form: HTMLFormElement, name: string): HTMLInputElement | null =>
  form.querySelector<HTMLInputElement>(`input[type="hidden"][name="${name}"]`);

function set(form: HTMLFormElement, name: string, value: string): void {
  const field = hidden(form, name);
  if (field) field.value = value;
}

/** A key of its own for what is sent next. */
function freshKey(form: HTMLFormElement): void {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  set(form, "key", [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join(""));
}

/** Shows what an answer's page finds wrong, above the form, and keeps all that was typed. */
function showWrong(form: HTMLFormElement, box: Element): void {
  document.querySelectorAll("main .wrong").forEach((old) => old.remove());
  form.before(box);
  box.scrollIntoView({ block: "center" });
}

/** Marks the fields that an answer's page marks, each with its words. */
function mark(form: HTMLFormElement, page: Document): void {
  // What the bench asked back is kept where it is sent as it stands.
  form.append(...page.querySelectorAll('input[name="kept"]'));
  let first: HTMLElement | null = null;
  for (const there of page.querySelectorAll<HTMLInputElement>('input[aria-invalid="true"]')) {
    const named = `input[name="${CSS.escape(there.name)}"]`;
    const nth = [...page.querySelectorAll(named)].indexOf(there);
    const here = form.querySelectorAll<HTMLInputElement>(named)[nth];
    const says = page.getElementById(there.getAttribute("aria-describedby") ?? "");
    if (!here || !says) continue;
    here.setAttribute("aria-invalid", "true");
    here.setAttribute("aria-describedby", says.id);
    const place = here.closest("td, .setting, .field");
    place?.querySelector(".ask-back")?.remove();
    place?.append(says);
    first ??= here;
  }
  first?.focus();
}

/** Somebody else recorded meanwhile: shows what, and lets the hand decide. */
async function overtaken(form: HTMLFormElement, box: Element): Promise<void> {
  const here = job();
  const before = Number(hidden(form, "expected")?.value);
  if (here) {
    const answer = await fetch(`/api/jobs/${here.id}`);
    if (answer.ok) {
      const now = (await answer.json()) as { expected: number; events: Recorded[] };
      const list = made("ul", "changes");
      for (const one of now.events.filter((event) => event.event > before)) {
        const text = word("live-others", { who: one.person, what: one.says });
        list.append(made("li", "", text));
      }
      box.append(list, made("p", "", word("live-new-readings")));
      set(form, "expected", String(now.expected));
    }
  }
  freshKey(form);
  showWrong(form, box);
}

interface Recorded {
  event: number;
  person: string;
  says: string;
}

type Came = "gone" | "again" | "stopped";

/** Reads an answer: it is saved, it has to go up again, or a person has to look. */
async function read(form: HTMLFormElement, answer: Response): Promise<Came> {
  const path = new URL(answer.url).pathname;
  if (path === "/unlock") {
    await locked();
    return "again";
  }
  if (path === "/sign-in" || path === "/first") {
    // What is kept goes up by itself once the page is back.
    location.assign(`/sign-in?next=${encodeURIComponent(location.pathname)}`);
    return "gone";
  }
  if (answer.ok) {
    draft.forget();
    location.assign(answer.url);
    return "gone";
  }
  // Too slow on the way up, too many at once, or nobody there for the moment: the same goes up again.
  if (answer.status >= 502 || [408, 429].includes(answer.status)) return "again";
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const box = page.querySelector("main .wrong") ?? made("div", "wrong", answer.statusText);
  show(form, "typed");
  draft.keep(form, null);
  if (answer.status === 409) await overtaken(form, box);
  else showWrong(form, box);
  mark(form, page);
  form.dispatchEvent(new Event("refused"));
  return "stopped";
}

/** Sends what stands in the form until an answer comes. */
async function send(form: HTMLFormElement): Promise<void> {
  await shrunk(form);
  const body = new FormData(form);
  const sent = { key: String(body.get("key")), expected: String(body.get("expected")) };
  draft.keep(form, sent);
  show(form, "saving");
  for (let wait = 400; ; wait = Math.min(2 * wait, LONGEST_WAIT)) {
    const over = follow(form, sent.key);
    try {
      body.set("csrf", csrf());
      const answer = await fetch(form.action, { method: "POST", body }).finally(over);
      if ((await read(form, answer)) !== "again") return;
    } catch {
      if (line(form).dataset["saved"] !== "waits") say(word("live-away"));
      show(form, "waits");
    }
    await pause(wait);
  }
}

/** Waits, but no longer than until the tablet is on the line again. */
function pause(milliseconds: number): Promise<void> {
  return new Promise((over) => {
    const end = (): void => {
      window.removeEventListener("online", end);
      window.clearTimeout(timer);
      over();
    };
    const timer = window.setTimeout(end, milliseconds);
    window.addEventListener("online", end);
  });
}

/** Shows other places or rounds: what is typed is kept, and put back into the rows that it fits. */
function layOut(form: HTMLFormElement, wanted: string): void {
  const layout = draft.layoutOf(form);
  const [name, value] = wanted.split("=");
  layout.set(name ?? "", value ?? "");
  set(form, name ?? "", value ?? "");
  draft.keep(form, null);
  location.assign(`${location.pathname}?${layout.toString()}`);
}

/** Makes a form keep what is typed, and send it once. */
export function watch(form: HTMLFormElement): void {
  const was = draft.kept();
  const here = draft.layoutOf(form).toString();
  if (was && was.layout !== here && location.search !== `?${was.layout}` && was.layout) {
    // What was typed belongs to rows that this page does not show.
    location.replace(`${location.pathname}?${was.layout}`);
    return;
  }
  if (form.hasAttribute("data-typed")) show(form, "typed");
  if (was) {
    const back = draft.putBack(form, was);
    const hasFiles = form.querySelector('input[type="file"][data-photo]') !== null;
    if (was.sent && !hasFiles) {
      set(form, "key", was.sent.key);
      set(form, "expected", was.sent.expected);
      void send(form);
    } else if (back) {
      show(form, "typed");
      say(word("live-restored"));
      form.dispatchEvent(new Event("restored"));
    } else {
      draft.forget();
    }
    if (back) form.closest("details")?.setAttribute("open", "");
  }
  form.addEventListener("input", () => {
    draft.keep(form, null);
    show(form, draft.typedIn(form).length > 0 ? "typed" : "clean");
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const by = event.submitter;
    if (by instanceof HTMLButtonElement && by.name === "lay-out") return layOut(form, by.value);
    if (!form.hasAttribute("data-frozen")) void send(form);
  });
}
