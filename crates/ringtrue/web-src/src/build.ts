// The form that builds a joint: drawn and checked by the bench while it is typed.

import { touched } from "./lock.js";
import { csrf, rested } from "./page.js";
import { watch } from "./send.js";

/** How long the hand has to rest. */
const REST = 450;

type Field = HTMLInputElement | HTMLSelectElement;

/** Is what is missing told, or only what was typed and does not fit? */
type Tell = "unfit" | "all";

/** Says at a field what is wrong with it, or that nothing is. */
function mark(field: Field, wrong: string): void {
  const line = document.getElementById(`${field.id}-wrong`);
  if (line && line.textContent !== wrong) line.textContent = wrong;
  if (wrong) {
    field.setAttribute("aria-invalid", "true");
    field.closest("details")?.setAttribute("open", "");
  }
  if (!wrong) field.removeAttribute("aria-invalid");
}

/** Shows the fields that go with a half's load ring, and no others. */
function carry(form: HTMLFormElement, half: string, loadRing: string): void {
  const here = form.querySelector<HTMLElement>(`[data-half="${half}"]`);
  if (here && loadRing) here.dataset["loadRing"] = loadRing;
}

/** Shows drawings, complaints and what the chosen seals hold. */
function show(form: HTMLFormElement, page: Document, tell: Tell): void {
  for (const drawn of page.querySelectorAll<HTMLElement>("[data-drawing]")) {
    const here = form.querySelector(`[data-drawing="${drawn.dataset["drawing"]}"]`);
    here?.replaceChildren(...drawn.childNodes);
  }
  const texts = (list: string): Map<string, HTMLElement> => {
    const lines = [...page.querySelectorAll<HTMLElement>(`[${list}] > li`)];
    return new Map(lines.map((line) => [line.dataset["of"] ?? "", line]));
  };
  const [wrongs, nows] = [texts("data-wrongs"), texts("data-nows")];
  for (const [half, line] of texts("data-load-rings")) carry(form, half, line.textContent ?? "");
  for (const field of form.querySelectorAll<Field>("[data-field] input, [data-field] select")) {
    const wrong = wrongs.get(field.name);
    const told = wrong && (tell === "all" || wrong.dataset["why"] === "unfit");
    mark(field, told ? (wrong.textContent ?? "") : "");
    const now = nows.get(field.name)?.textContent;
    if (now !== undefined && field instanceof HTMLInputElement) field.placeholder = now ?? "";
  }
}

let latest = 0;

/** Makes the form live. */
export function build(form: HTMLFormElement): void {
  // Whatever the page came with says so itself.
  let tell: Tell = document.querySelector("main .wrong") ? "all" : "unfit";
  const draw = async (): Promise<void> => {
    const mine = (latest += 1);
    const body = new URLSearchParams();
    for (const [name, text] of new FormData(form)) body.append(name, String(text));
    body.set("csrf", csrf());
    try {
      const answer = await fetch("/api/joints/draw", {
        method: "POST",
        headers: { "x-csrf-token": csrf() },
        body,
      });
      if (mine !== latest || !answer.ok) return;
      touched();
      show(form, new DOMParser().parseFromString(await answer.text(), "text/html"), tell);
    } catch {
      // Off the line: what was drawn last stays, and what is typed is kept.
    }
  };
  const soon = rested(() => void draw(), REST);
  form.addEventListener("input", soon);
  form.addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLSelectElement) || !target.name.endsWith(".load_ring")) return;
    carry(form, target.closest<HTMLElement>("[data-half]")?.dataset["half"] ?? "", target.value);
  });
  form.querySelector("[data-draw]")?.addEventListener("click", (event) => {
    event.preventDefault();
    void draw();
  });
  form.addEventListener("restored", () => void draw());
  form.addEventListener("refused", () => {
    tell = "all";
    void draw().then(() => form.querySelector<Field>('[aria-invalid="true"]')?.focus());
  });
  watch(form);
}
