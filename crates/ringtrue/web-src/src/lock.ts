// A session that locks: the page is covered, what was typed stays under it.

import { csrf, job, made, word } from "./page.js";

let open: Promise<void> | null = null;

/** Covers the page until the passphrase has been typed. */
export function locked(): Promise<void> {
  open ??= cover().finally(() => (open = null));
  return open;
}

function cover(): Promise<void> {
  const dialog = made("dialog", "cover");
  dialog.dataset["locked"] = "";
  const form = made("form", "narrow");
  form.method = "dialog";
  const title = made("h2", "", word("live-locked"));
  title.id = "cover-title";
  dialog.setAttribute("aria-labelledby", title.id);
  const label = made("label", "", word("live-passphrase"));
  label.htmlFor = "cover-passphrase";
  const field = made("input", "");
  Object.assign(field, { id: label.htmlFor, type: "password", required: true });
  field.autocomplete = "current-password";
  const wrong = made("p", "wrong");
  wrong.setAttribute("role", "alert");
  wrong.hidden = true;
  const button = made("button", "primary", word("live-unlock"));
  form.append(title, label, field, wrong, button);
  dialog.append(form);
  document.body.append(dialog);
  // Escape must not uncover it.
  dialog.addEventListener("cancel", (event) => event.preventDefault());
  dialog.showModal();
  document.documentElement.dataset["covered"] = "";
  return new Promise((over) => {
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void unlock(field.value).then((trouble) => {
        field.value = "";
        if (trouble) {
          wrong.textContent = trouble;
          wrong.hidden = false;
          field.focus();
          return;
        }
        delete document.documentElement.dataset["covered"];
        dialog.remove();
        touched();
        over();
      });
    });
  });
}

/** Opens the session again, or says why not. */
async function unlock(passphrase: string): Promise<string | null> {
  try {
    const answer = await fetch("/api/session/unlock", {
      method: "POST",
      headers: { "content-type": "application/json", "x-csrf-token": csrf() },
      body: JSON.stringify({ passphrase }),
    });
    if (answer.ok) return null;
    const said = (await answer.json()) as { problem: string; what: string; do_next: string };
    if (said.problem === "session-over") {
      // The session is over: whoever signs in comes back here, and what was typed is kept.
      location.assign(`/sign-in?next=${encodeURIComponent(location.pathname)}`);
    }
    return `${said.what} ${said.do_next}`;
  } catch {
    return word("live-away");
  }
}

let timer = 0;

/** The hand was here: the session locks so much later. */
export function touched(): void {
  const seconds = Number(document.documentElement.dataset["locksAfter"] ?? 0);
  window.clearTimeout(timer);
  if (seconds > 0) timer = window.setTimeout(() => void look(), 1000 * seconds + 500);
}

/** Looks whether the session has locked; asking does not keep it awake. */
async function look(): Promise<void> {
  const here = job();
  try {
    const answer = await fetch(here ? `/api/jobs/${here.id}` : "/api/jobs?most=1");
    if (answer.status === 401) await locked();
    else touched();
  } catch {
    touched();
  }
}
