// The scripts of the bench's pages. Each takes hold of what a page offers, and does nothing else.

import { build } from "./build.js";
import { touched } from "./lock.js";
import { listen } from "./news.js";
import { signedIn } from "./page.js";
import { readings } from "./readings.js";
import { section } from "./section.js";
import { watch } from "./send.js";

/** The menu of whoever is signed in: it goes away again, and hides nothing that has the focus. */
function menu(box: HTMLDetailsElement): void {
  box.addEventListener("keydown", ({ key }) => {
    if (key !== "Escape" || !box.open) return;
    box.open = false;
    box.querySelector("summary")?.focus();
  });
  document.addEventListener("focusin", ({ target }) => {
    if (!box.contains(target as Node)) box.open = false;
  });
  document.addEventListener("click", ({ target }) => {
    if (!box.contains(target as Node)) box.open = false;
  });
}

if (signedIn) {
  touched();
  document.querySelectorAll<HTMLDetailsElement>("details[data-me]").forEach(menu);
  listen();
  document.querySelectorAll<HTMLFormElement>("form[data-evidence-form]").forEach((form) => {
    readings(form);
    watch(form);
  });
  document.querySelectorAll<HTMLFormElement>("form[data-build]").forEach(build);
  section();
}
