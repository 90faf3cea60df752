// The scripts of the bench's pages. Each takes hold of what a page offers, and does nothing else.

import { build } from "./build.js";
import { touched } from "./lock.js";
import { listen } from "./news.js";
import { signedIn } from "./page.js";
import { live } from "./readings.js";
import { section } from "./section.js";
import { watch } from "./send.js";

if (signedIn) {
  touched();
  listen();
  document.querySelectorAll<HTMLFieldSetElement>("fieldset[data-readings]").forEach(live);
  document.querySelectorAll<HTMLFormElement>("form[data-evidence-form]").forEach(watch);
  document.querySelectorAll<HTMLFormElement>("form[data-build]").forEach(build);
  section();
}
