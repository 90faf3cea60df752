// The load ring as the joint closes: a slider over the frames that the bench has drawn.

import { made, say, word } from "./page.js";

interface Frame {
  gap_mm: number;
}

/** While the sections are solved: how far it is, then the page as it is then. */
function solving(box: HTMLElement): void {
  const bar = box.querySelector("progress");
  const stream = new EventSource(box.dataset["solving"] ?? "");
  stream.addEventListener("progress", (event) => {
    const now = JSON.parse((event as MessageEvent<string>).data) as { solved: number; of: number };
    if (bar) Object.assign(bar, { max: now.of, value: now.solved });
  });
  stream.addEventListener("done", () => {
    stream.close();
    say(word("live-solved"));
    location.reload();
  });
  window.addEventListener("pagehide", () => stream.close());
}

const half = (id: string): string => (id === "0" ? "a" : "b");

function slider(box: HTMLElement): void {
  const count = Number(box.dataset["frames"]);
  const spot = box.querySelector<HTMLElement>("[data-slider]");
  const shown = box.querySelector<HTMLElement>("[data-gap]");
  const figures = [...box.querySelectorAll<HTMLElement>("[data-halves] figure")];
  if (!spot || count < 2 || figures.length === 0) return;
  const label = made("label", "", word("live-slider"));
  const range = made("input", "");
  label.htmlFor = range.id = "gap-slider";
  Object.assign(range, { type: "range", min: "0", max: String(count - 1), step: "1" });
  range.value = box.dataset["frame"] ?? "0";
  const play = made("button", "second", word("live-play"));
  play.type = "button";
  spot.append(label, range, play);
  const frames: Promise<Frame[]> = fetch(box.dataset["section"] ?? "")
    .then((answer) => answer.json() as Promise<{ frames?: Frame[] }>)
    .then((told) => told.frames ?? [])
    .catch(() => []);
  const drawings = new Map<string, Promise<string>>();
  const drawing = (which: string, at: number): Promise<string> => {
    const place = `${box.dataset["pictures"]}/${which}/${at}`;
    const known = drawings.get(place) ?? fetch(place).then((answer) => answer.text());
    drawings.set(place, known);
    return known;
  };
  let latest = 0;
  const show = async (): Promise<void> => {
    const at = Number(range.value);
    const mine = (latest += 1);
    const texts = await Promise.all(figures.map((_, i) => drawing(half(String(i)), at)));
    const gap = (await frames)[at]?.gap_mm;
    if (mine !== latest) return;
    figures.forEach((figure, i) => {
      const parsed = new DOMParser().parseFromString(texts[i] ?? "", "image/svg+xml");
      figure.replaceChildren(document.importNode(parsed.documentElement, true));
    });
    const said = word("live-frame", { n: at + 1, of: count });
    const text = gap === undefined ? said : `${gap.toFixed(2)} mm, ${said}`;
    range.setAttribute("aria-valuetext", text);
    if (shown) shown.textContent = text;
  };
  range.addEventListener("input", () => void show());
  let playing = 0;
  const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
  const stop = (): void => {
    window.clearInterval(playing);
    playing = 0;
    play.textContent = word("live-play");
  };
  play.hidden = calm.matches;
  play.addEventListener("click", () => {
    if (playing) return stop();
    play.textContent = word("live-pause");
    range.value = "0";
    playing = window.setInterval(() => {
      if (Number(range.value) >= count - 1) return stop();
      range.value = String(Number(range.value) + 1);
      void show();
    }, 200);
  });
}

/** Takes hold of a page of sections. */
export function section(): void {
  const waits = document.querySelector<HTMLElement>("[data-solving]");
  if (waits) solving(waits);
  const box = document.querySelector<HTMLElement>("[data-section]");
  if (box) slider(box);
}
