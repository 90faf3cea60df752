// A bench of its own for each test: a store in a temporary folder, people in it, the program
// serving it; and a Chromium to sit in front of.
import { execFile, spawn } from "node:child_process";
import {
  existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { chromium } from "playwright-core";

/** The repository. */
export const root = resolve(dirname(fileURLToPath(import.meta.url)), "../../../..");
const target = process.env.CARGO_TARGET_DIR ?? join(root, "target");
const program = process.env.RINGTRUE ?? join(target, "debug", "ringtrue");
/** Where screenshots and papers of a run are left. */
export const kept = join(target, "pages");
/** Curves that were solved are solved once for all tests. */
const cache = join(kept, "cache");

/** Who works at the bench, and their passphrases. */
export const people = {
  Fay: ["fitter", "river stone coat nine"],
  Cam: ["checker", "seven green bottles ok"],
  Eli: ["engineer", "a long way to the yard"],
  Kim: ["keeper", "oak table lamp kettle"],
};

const run = promisify(execFile);

/** A store in a folder of its own, and the program on it. */
export class Bench {
  constructor() {
    mkdirSync(kept, { recursive: true });
    this.folder = mkdtempSync(join(tmpdir(), "ringtrue-pages-"));
    this.store = join(this.folder, "record.db");
    this.gauges = {};
    this.cache = cache;
  }

  /** The store of a bench that has its people: four passphrases are locked once for a file of tests. */
  static #peopled;

  /** With one person of each role in the store. */
  static async withPeople(...options) {
    const bench = new Bench();
    if (Bench.#peopled) {
      writeFileSync(bench.store, Bench.#peopled);
    } else {
      for (const [name, [role, passphrase]] of Object.entries(people)) {
        const added = { RINGTRUE_NEW_PASSPHRASE: passphrase };
        await bench.command(["person", "add", name, "--role", role], added);
      }
      Bench.#peopled = readFileSync(bench.store);
    }
    await bench.start(...options);
    return bench;
  }

  /** Runs the program on this store and gives what it printed. */
  async command(given, variables = {}) {
    const env = { ...process.env, RINGTRUE_STORE: this.store, ...variables };
    env.XDG_CACHE_HOME = this.cache;
    const { stdout } = await run(program, given, { env, cwd: root, maxBuffer: 64 << 20 });
    return stdout;
  }

  /** The same as a person. */
  async as(name, given) {
    const [, passphrase] = people[name];
    const who = { RINGTRUE_PERSON: name, RINGTRUE_PASSPHRASE: passphrase };
    return this.command(given, { ...who, RINGTRUE_DEVICE: "bench 3" });
  }

  /** Starts serving; a port that was had before is had again. */
  async start(...options) {
    const given = ["bench", "--port", String(this.port ?? 0), "--store", this.store, ...options];
    const env = { ...process.env, XDG_CACHE_HOME: this.cache };
    this.options = options;
    this.child = spawn(program, given, { env, stdio: ["ignore", "pipe", "inherit"] });
    this.url = await new Promise((ready, failed) => {
      let said = "";
      this.child.on("error", failed);
      this.child.on("exit", (code) => failed(new Error(`the bench ended: ${code} ${said}`)));
      this.child.stdout.on("data", (data) => {
        said += data;
        const found = /Bench at (\S+)\n/.exec(said);
        if (found) ready(found[1]);
      });
    });
    this.port = Number(new URL(this.url).port);
  }

  /** Serves on as if nothing had ever been solved. */
  async unsolved() {
    await this.kill();
    this.cache = mkdtempSync(join(this.folder, "cache-"));
    await this.start(...this.options);
  }

  /** How many curves and ways were solved since. */
  get solved() {
    const curves = join(this.cache, "ringtrue", "curves");
    return existsSync(curves) ? readdirSync(curves).length : 0;
  }

  /** Ends serving as a power cut would. */
  async kill() {
    const gone = new Promise((ended) => this.child.once("exit", ended));
    this.child.kill("SIGKILL");
    await gone;
  }

  /** Ends all of it. */
  async end() {
    if (this.child && this.child.exitCode === null) await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Brings definitions into the shop's library; `gauges` has the hash of each by its path. */
  async bringIn(paths) {
    const keeper = await this.tablet("Eli");
    for (const path of paths) {
      const form = new FormData();
      form.set("csrf", keeper.csrf);
      form.set("file", new Blob([readFileSync(path)]), basename(path));
      const sent = { method: "POST", body: form, headers: { cookie: keeper.cookie } };
      const answer = await fetch(`${this.url}/library`, { ...sent, redirect: "manual" });
      if (answer.status !== 303) throw new Error(`${path}: ${answer.status}`);
      this.gauges[path] = answer.headers.get("location").split("/").at(-1);
    }
  }

  /** Another tablet, as a program: signed in, without a browser. */
  async tablet(name) {
    const sent = { name, passphrase: people[name][1], device: "bench 3" };
    const answer = await fetch(`${this.url}/api/session`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(sent),
    });
    if (!answer.ok) throw new Error(await answer.text());
    const cookie = answer.headers.getSetCookie()[0].split(";")[0];
    const { csrf_token: csrf } = await answer.json();
    return new Tablet(this, cookie, csrf);
  }
}

/** A program that is signed in. */
class Tablet {
  constructor(bench, cookie, csrf) {
    Object.assign(this, { bench, cookie, csrf });
  }

  async get(path) {
    const answer = await fetch(this.bench.url + path, { headers: { cookie: this.cookie } });
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }

  /** A page as it is sent, without script. */
  async page(path) {
    const answer = await fetch(this.bench.url + path, { headers: { cookie: this.cookie } });
    if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
    return answer.text();
  }

  async post(path, sent) {
    const answer = await fetch(this.bench.url + path, {
      method: "POST",
      headers: {
        cookie: this.cookie,
        "x-csrf-token": this.csrf,
        "content-type": "application/json",
      },
      body: JSON.stringify(sent),
    });
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }

  /** Does something on a job as it stands. */
  async act(job, deed, more = {}) {
    const { expected } = await this.get(`/api/jobs/${job}`);
    return this.post(`/api/jobs/${job}/events`, { expected, deed, ...more });
  }

  /** Opens a job for the joint of a told one. */
  async open({ joint, files }) {
    const named = files.map((path) => [basename(path), readFileSync(path, "utf8")]);
    const sent = { joint: readFileSync(joint, "utf8"), files: Object.fromEntries(named) };
    return (await this.post("/api/jobs", sent)).job;
  }
}

const flags = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** A Chromium. That there is none is a failure, not a reason to skip. */
export async function browser() {
  const known = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const executablePath = process.env.CHROMIUM ?? known.find((path) => existsSync(path));
  if (!executablePath) throw new Error("no Chromium: install it, or name it in CHROMIUM");
  return chromium.launch({ executablePath, args: flags });
}

/** The sizes of tablets that pages are laid out for. */
export const sizes = {
  wide: { width: 1280, height: 800 },
  tall: { width: 800, height: 1280 },
  small: { width: 390, height: 844 },
};

/** A tablet in a browser; whatever its scripts trip over fails the test. */
export async function tabletIn(chromium, options = {}) {
  const { size = "wide", theme = "light", ...more } = options;
  const context = await chromium.newContext({
    viewport: sizes[size],
    colorScheme: theme,
    acceptDownloads: true,
    ...more,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.broken = [];
  page.on("pageerror", (error) => page.broken.push(String(error.stack ?? error)));
  page.on("console", (line) => {
    const policy = /Content Security Policy/i.test(line.text());
    if (policy) page.broken.push(line.text());
  });
  return page;
}

/** Signs somebody in on a page. */
export async function signIn(page, bench, name) {
  await page.goto(`${bench.url}/sign-in`);
  await page.getByLabel("Name", { exact: true }).fill(name);
  await page.locator("#passphrase").fill(people[name][1]);
  await page.locator("main button.primary").click();
  await page.waitForURL(`${bench.url}/jobs**`);
}
