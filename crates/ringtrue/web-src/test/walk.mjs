// What examples/job.sh tells, as the fields of a step's form and as the deed that the API takes.
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { people } from "./bench.mjs";

/** Another person at the tablet. */
export const beside = "Cam";
export const passphraseOf = (name) => people[name][1];

const text = (path) => readFileSync(path, "utf8");

/** What a page asks for, by its hooks: each evidence with its kind, and how readings are put in. */
export function askedOf(html) {
  const [, ...parts] = html.split('data-evidence="');
  return parts.map((part) => {
    const all = (name) => [...part.matchAll(new RegExp(`${name}="([^"]*)"`, "g"))].map((m) => m[1]);
    const laid = [...part.matchAll(/name="given\.[^"]*\.(places|rounds|lines)" value="(\d+)"/g)];
    return {
      name: part.slice(0, part.indexOf('"')),
      kind: all("data-kind")[0],
      readings: all("data-readings")[0],
      header: all("data-header")[0],
      settings: all("data-setting"),
      links: all("data-link"),
      laid: Object.fromEntries(laid.map(([, what, count]) => [what, Number(count)])),
    };
  });
}

/** Rows of a file or of what is typed; a cell has its column's unit where the form's is another. */
function tableOf(lines, units) {
  const [header, ...rows] = lines.filter((line) => !line.startsWith("#"));
  const columns = header.split(",").map((name) => /^(\w+?)(?:_(mm|in|deg))?$/.exec(name));
  return rows.map((row) => {
    const cells = row.split(",").map((cell, at) => {
      const [, name, unit] = columns[at];
      const bare = !unit || unit === "deg" || unit === units;
      return [name, bare ? cell : `${cell} ${unit}`];
    });
    return Object.fromEntries(cells);
  });
}

const linesOf = (path) => text(path).trim().split("\n");

/** The readings of a set that stands as a table on the page. */
function readingsOf(deed, one, units) {
  const file = (deed.files[one.name] ?? deed.files[""])?.[0];
  const rows = deed.rows[one.name] ?? deed.rows[""] ?? [];
  return tableOf(file ? linesOf(file) : ["name,value,u", ...rows], units);
}

/** Heights of a deed in the order of the form, and how they are laid out. */
export function heightsOf(deed, units = "mm") {
  const rows = readingsOf(deed, { name: "heights" }, units);
  const rounds = Math.max(...rows.map((row) => Number(row.round ?? 1)));
  const typed = rows.map((row) => row.height);
  return { typed, rounds, places: typed.length / rounds };
}

/** Other places or rounds than the page has: values of the buttons that lay them out. */
export function layoutsOf(deed, asked) {
  const one = asked.find((one) => one.readings === "heights");
  if (!one) return [];
  const wanted = heightsOf(deed);
  const other = ["places", "rounds"].filter((what) => wanted[what] !== one.laid[what]);
  return other.map((what) => `given.${one.name}.${what}=${wanted[what]}`);
}

/** Notes what of a deed was put somewhere: whatever is left over would go unsaid. */
class Left {
  constructor(deed) {
    this.keys = new Set(deed.ticks.map((name) => `ticks ${name}`));
    for (const kind of ["photos", "texts", "values", "uncertainties", "files", "rows", "settings"]) {
      for (const name of Object.keys(deed[kind])) this.keys.add(`${kind} ${name}`);
    }
  }

  take(kind, name) {
    this.keys.delete(`${kind} ${name}`);
  }

  isNothing({ step, half }) {
    if (this.keys.size > 0) {
      throw new Error(`${step} ${half ?? ""} does not ask for: ${[...this.keys].join(", ")}`);
    }
  }
}

/** Files, rows and settings of a set, by its name or as the only ones. */
function setOf(deed, one, left) {
  const own = (kind) => {
    const name = deed[kind][one.name] ? one.name : "";
    left.take(kind, name);
    return deed[kind][name] ?? [];
  };
  const settings = Object.entries(deed.settings).filter(([name]) => one.settings.includes(name));
  settings.forEach(([name]) => left.take("settings", name));
  return { files: own("files"), rows: own("rows"), settings };
}

/** The fields of a step's form: a list of texts by name, in the order in which they stand. */
export function fieldsOf(deed, asked, units = "mm") {
  const fields = new Map();
  const put = (name, part, typed) => {
    const key = part === "" ? `given.${name}` : `given.${name}.${part}`;
    fields.set(key, [...(fields.get(key) ?? []), typed]);
  };
  const left = new Left(deed);
  for (const one of asked) {
    const { name, kind } = one;
    const plain = { tick: "ticks", text: "texts", photo: "photos", value: "values" }[kind];
    if (plain) left.take(plain, name);
    if (kind === "tick" && deed.ticks.includes(name)) put(name, "", "yes");
    if (kind === "text" && deed.texts[name]) put(name, "", deed.texts[name]);
    if (kind === "photo" && deed.photos[name]) put(name, "", { file: deed.photos[name] });
    if (kind === "value" && deed.values[name]) put(name, "", deed.values[name]);
    if (kind === "value" && deed.uncertainties[name]) {
      left.take("uncertainties", name);
      put(name, "u", deed.uncertainties[name]);
    }
    if (kind !== "reading-set") continue;
    const { files, rows, settings } = setOf(deed, one, left);
    if (one.readings === "heights") {
      heightsOf(deed, units).typed.forEach((typed) => put(name, "height", typed));
    } else if (one.readings === "sizes") {
      const known = readingsOf(deed, one, units);
      for (const link of one.links) {
        // A size that is not measured stays empty.
        const row = known.find((row) => row.name === link);
        put(name, "value", row?.value);
        put(name, "u", row?.u);
      }
    } else {
      files.forEach((file) => put(name, "file", { file }));
      const columns = (one.header ?? "").split(",");
      for (const row of rows) {
        row.split(",").forEach((cell, at) => put(name, `cell.${columns[at]}`, cell));
      }
      settings.forEach(([set, typed]) => put(name, `set.${set}`, typed));
    }
  }
  left.isNothing(deed);
  // A gauge is chosen by what its name begins with.
  if (deed.gauge) fields.set("gauge", [/^name = "(.*)"$/m.exec(text(deed.gauge))[1]]);
  return fields;
}

/** A file of readings as the API takes it: a trace is no text. */
function fileOf(path) {
  const origin = basename(path);
  if (!path.endsWith(".x3p")) return { origin, text: text(path) };
  return { origin, content: readFileSync(path).toString("base64") };
}

/** The same as the deed that the API takes; `gauges` are hashes by path. */
export function deedOf(deed, asked, gauges) {
  const chosen = deed.gauge ? { gauge: gauges[deed.gauge] } : {};
  const left = new Left(deed);
  const given = asked.flatMap((one) => {
    const { name, kind } = one;
    if (kind === "tick" && deed.ticks.includes(name)) return { kind, name, answer: "yes" };
    if (kind === "text" && deed.texts[name]) return { kind, name, text: deed.texts[name] };
    if (kind === "photo" && deed.photos[name]) {
      const file = deed.photos[name];
      return { kind, name, file: basename(file), content: readFileSync(file).toString("base64") };
    }
    if (kind === "value" && deed.values[name]) {
      const value = { kind, name, typed: deed.values[name], ...chosen };
      const uncertainty = deed.uncertainties[name];
      return uncertainty ? { ...value, uncertainty } : value;
    }
    if (kind !== "reading-set") return [];
    const { files, rows, settings } = setOf(deed, one, left);
    const header = one.readings === "sizes" ? "name,value,u" : one.header;
    const sent = files.map(fileOf);
    if (rows.length > 0) sent.push({ text: `${header}\n${rows.join("\n")}\n` });
    return { kind, name, files: sent, stated: Object.fromEntries(settings), ...chosen };
  });
  return { kind: "record", step: deed.step, half: deed.half, given };
}

/** Goes on through the API, as far as the step at which `stop` says so. */
export async function byApi(fay, told, job, stop = () => false) {
  for (let turn = 0; turn < 200; turn += 1) {
    const now = await fay.get(`/api/jobs/${job}`);
    const open = (one) => !["done", "overridden", "not-needed"].includes(one.standing);
    const next = now.steps.find(open);
    if (!next || stop(next)) return next;
    const { step, half, standing } = next;
    if (standing === "unsigned") {
      await fay.act(job, { kind: "sign", step, half });
      continue;
    }
    const asked = askedOf(await fay.page(`/jobs/${job}/steps/${step}${half ? `/${half}` : ""}`));
    const second = asked.find((one) => one.kind === "second-person");
    if (second && now.events.some((one) => one.kind === "recorded" && same(one, next))) {
      const given = [{ kind: second.kind, name: second.name }];
      const by = { name: beside, passphrase: passphraseOf(beside) };
      await fay.act(job, { kind: "record", step, half, given }, { by });
    } else {
      await fay.act(job, deedOf(told.last(step, half), asked, fay.bench.gauges));
    }
  }
  throw new Error("this job does not come to its end");
}

const same = (one, next) => one.step === next.step && one.half === next.half;
