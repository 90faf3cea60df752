// The load ring as the joint closes: a slider over the frames that the bench has drawn.

import { made, say, word } from "./page.js";

/** While the sections are solved: how far it is, then the page as it is then. */
function solving(box: HTMLElement): void {
  const bar = box.querySelector("progress");
  const stream = new EventSource(box.dataset["solving"] ?? "");
  stream.addEventListener("progress", (event) => {
    const now = JSON.parse((event as MessageEvent<string>).data) as { solved: number; of: number };
    if (bar && now.of > 0) Object.assign(bar, { max: now.of, value: now.solved });
  });
  stream.addEventListener("done", () => {
    stream.close();
    say(word("live-solved"));
    // What is being sent brings its own page, and a chosen photo would be lost: then a hand does it.
    const photos = document.querySelectorAll<HTMLInputElement>('input[type="file"]');
    const chosen = [...photos].some((field) => (field.files?.length ?? 0) > 0);
    if (!chosen && !document.querySelector("form[data-frozen]")) location.reload();
  });
  window.addEventListener("pagehide", () => stream.close());
}

/** How long a trial is left to be solved before it is looked at again. */
const TRIAL = 1500;
/** How long a frame stands while it plays. */
const FRAME = 200;

function slider(box: HTMLElement): void {
  const count = Number(box.dataset["frames"]);
  const spot = box.querySelector<HTMLElement>("[data-slider]");
  const shown = box.querySelector<HTMLElement>("[data-shown]");
  if (!spot || !shown || count < 2) return;
  const label = made("label", "", word("live-slider"));
  const range = made("input", "");
  label.htmlFor = range.id = "gap-slider";
  Object.assign(range, { type: "range", min: "0", max: String(count - 1), step: "1" });
  range.value = box.dataset["frame"] ?? "0";
  const play = made("button", "second", word("live-play"));
  play.type = "button";
  spot.append(label, range, play);
  /** Frames by number, as the bench's own page shows them: values in the chosen units. */
  const frames = new Map<number, Promise<HTMLElement | null>>();
  const frame = (at: number): Promise<HTMLElement | null> => {
    const known = frames.get(at);
    if (known) return known;
    const asked = fetch(`${box.dataset["section"]}?frame=${at}`).then(async (answer) => {
      if (!answer.ok) throw new Error(answer.statusText);
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      return page.querySelector<HTMLElement>("[data-shown]");
    });
    // Off the line it is asked for again the next time.
    const kept = asked.catch(() => (frames.delete(at), null));
    frames.set(at, kept);
    return kept;
  };
  const text = (part: Element): string =>
    part.querySelector('[data-value="gap"]')?.firstChild?.textContent?.trim() ?? "";
  const name = (at: number): string => {
    const place = word("live-frame", { n: at + 1, of: count });
    return `${text(shown)}, ${place}`;
  };
  const show = async (at: number): Promise<void> => {
    const found = await frame(at);
    if (!found || Number(range.value) !== at) return;
    const nodes = found.cloneNode(true).childNodes;
    shown.replaceChildren(...nodes);
    // The slider is how one goes on here.
    for (const link of shown.querySelectorAll("nav a")) link.remove();
    range.setAttribute("aria-valuetext", name(at));
  };
  range.setAttribute("aria-valuetext", name(Number(range.value)));
  for (const link of shown.querySelectorAll("nav a")) link.remove();
  range.addEventListener("input", () => void show(Number(range.value)));
  let playing = false;
  const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
  const stop = (): void => {
    playing = false;
    play.textContent = word("live-play");
  };
  /** One frame after the other, each shown before the next is asked for. */
  const run = async (): Promise<void> => {
    playing = true;
    play.textContent = word("live-pause");
    if (Number(range.value) >= count - 1) range.value = "0";
    while (playing && !calm.matches) {
      const at = Number(range.value);
      await Promise.all([show(at), new Promise((over) => window.setTimeout(over, FRAME))]);
      if (at >= count - 1) break;
      if (playing && Number(range.value) === at) range.value = String(at + 1);
    }
    stop();
  };
  const still = (): void => {
    play.hidden = calm.matches;
    if (calm.matches) stop();
  };
  still();
  calm.addEventListener("change", still);
  play.addEventListener("click", () => (playing ? stop() : void run()));
}

/** Takes hold of a page of sections. */
export function section(): void {
  const waits = document.querySelector<HTMLElement>("[data-solving]");
  if (waits) solving(waits);
  const box = document.querySelector<HTMLElement>("[data-section]");
  if (box) slider(box);
  const trial = document.querySelector("[data-solving-trial]");
  // The form asks by its address: the same page again says how far it is, or is done.
  if (trial) window.setTimeout(() => location.reload(), TRIAL);
}
