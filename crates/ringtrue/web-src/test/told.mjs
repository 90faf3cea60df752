// What a whole job is told in examples/job.sh: who does what, in which order, with which options.
// The script is run with a program that only writes down what it is called with, so that pages,
// API and command line are told the same job, and it is written once.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { root } from "./bench.mjs";

const here = dirname(fileURLToPath(import.meta.url));

/** Options that name evidence, as `NAME=...`. */
const named = { "--photo": "photos", "--text": "texts", "--value": "values" };
/** Options that may name evidence; without a name they are of the only set of the step. */
const sets = { "--readings": "files", "--row": "rows" };

/** Name and text of `NAME=TEXT`; the name is empty where there is none. */
function parted(text) {
  const at = text.indexOf("=");
  return at < 0 ? ["", text] : [text.slice(0, at), text.slice(at + 1)];
}

/** One call of `ringtrue job`, as a deed; `options` is what the command was given. */
function deedOf([verb, , ...rest]) {
  const deed = { verb, ticks: [], photos: {}, texts: {}, values: {}, uncertainties: {} };
  Object.assign(deed, { files: {}, rows: {}, settings: {}, half: null, step: null, options: [] });
  const words = [...rest];
  if (verb !== "sign" && !words[0].startsWith("--")) deed.step = words.shift();
  while (words.length > 0) {
    const option = words.shift();
    const flag = words.length === 0 || words[0].startsWith("--");
    const typed = flag ? "yes" : words.shift();
    if (option === "--person") deed.by = typed;
    if (["--person", "--passphrase-fd", "--json"].includes(option)) continue;
    deed.options.push(option, ...(flag ? [] : [typed]));
    const [name, text] = parted(typed);
    if (option === "--half") deed.half = typed;
    else if (option === "--second") deed.verb = "second";
    else if (option === "--why") deed.why = typed;
    else if (option === "--gauge") deed.gauge = typed;
    else if (option === "--tick") deed.ticks.push(typed);
    else if (option in named) deed[named[option]][name] = text;
    else if (option in sets) (deed[sets[option]][name] ??= []).push(text);
    else if (option === "--uncertainty" && name) deed.uncertainties[name] = text;
    else deed.settings[option.slice(2)] = typed;
  }
  return deed;
}

/** The calls that the script makes. */
function callsOf(kind) {
  const folder = mkdtempSync(join(tmpdir(), "ringtrue-told-"));
  try {
    const told = join(folder, "told");
    const env = { ...process.env, RINGTRUE: join(here, "stand-in.sh"), TOLD: told };
    execFileSync("bash", [join(root, "examples/job.sh"), kind, folder], { env, stdio: "pipe" });
    const calls = readFileSync(told, "utf8").split("\0\n\0").slice(0, -1);
    return calls.map((call) => call.split("\0"));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const schemaOf = (path) => /^schema = "ringtrue\/(\w+)\/1"$/m.exec(readFileSync(path, "utf8"))?.[1];

/** A job of one of the kinds that the script knows. */
export class Told {
  static #known = new Map();

  /** Read once. */
  static of(kind) {
    if (!Told.#known.has(kind)) Told.#known.set(kind, new Told(kind));
    return Told.#known.get(kind);
  }

  constructor(kind) {
    const calls = callsOf(kind).filter(([command]) => command === "job");
    /** The joint's file. */
    this.joint = calls.find(([, verb]) => verb === "new")[2];
    const deeds = ["record", "correct", "override", "follow-up"];
    this.deeds = calls.filter(([, verb]) => deeds.includes(verb)).map(([, ...call]) => deedOf(call));
    // What is corrected is what was recorded last.
    this.deeds.forEach((deed, at) => {
      if (deed.verb !== "correct") return;
      const { step, half } = this.deeds.slice(0, at).findLast((one) => one.verb === "record");
      Object.assign(deed, { step, half });
    });
  }

  /** The files that the joint's file may name: seals and materials beside it. */
  get files() {
    const folder = dirname(this.joint);
    const all = readdirSync(folder).filter((name) => name.endsWith(".toml"));
    return all.map((name) => join(folder, name)).filter((path) => {
      return ["seal", "material"].includes(schemaOf(path));
    });
  }

  /** The gauges that are read with. */
  get gauges() {
    return [...new Set(this.deeds.map((deed) => deed.gauge).filter(Boolean))];
  }

  /** What is done at a place, in turn. */
  at(step, half) {
    const found = this.deeds.filter((deed) => deed.step === step && deed.half === (half ?? null));
    if (found.length === 0) throw new Error(`nothing is told for the step ${step} ${half ?? ""}`);
    return found;
  }

  /** What stands at a place in the end. */
  last(step, half) {
    return this.at(step, half).findLast((deed) => ["record", "correct"].includes(deed.verb));
  }
}
