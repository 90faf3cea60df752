// What others record on this job, as it happens.

import { job, made, say, word } from "./page.js";

interface Recorded {
  event: number;
  person: string;
  says: string;
}

function show(one: Recorded): void {
  const head = document.querySelector<HTMLElement>("[data-job]");
  if (!head) return;
  let box = document.querySelector<HTMLElement>("[data-news]");
  if (!box) {
    box = made("div", "news");
    box.dataset["news"] = "";
    head.append(box);
  }
  box.hidden = false;
  const text = word("live-others", { who: one.person, what: one.says });
  const line = made("p", "", text);
  line.dataset["event"] = String(one.event);
  const again = box.querySelector("a") ?? made("a", "second", word("live-reload"));
  again.href = location.pathname;
  box.append(line, again);
  say(text);
}

/** Listens as long as the page is open; a line that drops is taken up again where it was. */
export function listen(): void {
  const here = job();
  if (!here) return;
  let seen = here.expected;
  const stream = new EventSource(`/api/jobs/${here.id}/stream?after=${here.expected}`);
  stream.addEventListener("recorded", (event) => {
    const one = JSON.parse((event as MessageEvent<string>).data) as Recorded;
    if (one.event <= seen) return;
    seen = one.event;
    // While this page saves, the news is its own.
    if (!document.querySelector("form[data-frozen]")) show(one);
  });
  window.addEventListener("pagehide", () => stream.close());
}
