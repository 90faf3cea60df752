// The demo joint through every stage: what is answered at each step, told once, and done by
// keyboard, by touch, by the API or by the command line. The joint, the people and what they
// measure are invented (examples/job.sh tells the same job).
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { photo, people, root } from "./bench.mjs";

const example = (name) => join(root, "examples", name);
const text = (path) => readFileSync(path, "utf8");
const rowsOf = (path) => {
  const lines = text(path).trim().split("\n");
  return lines.filter((line) => !line.startsWith("#")).map((line) => line.split(","));
};

const agent = {
  agent: "isopropyl-alcohol",
  bay: "60 m3",
  "air-changes": "4",
  amount: "30 ml",
};
const gauge = example("final-drive/depth-gauge.toml");
const indicator = example("checks/indicator.toml");
/** Gauges of the shop. */
export const gauges = [gauge, indicator];

/** Heights of a file, in the order of the form: round after round. */
const heights = (name) => {
  const [header, ...rows] = rowsOf(example(`final-drive/${name}.csv`));
  const [round, height] = [header.indexOf("round"), header.indexOf("height_mm")];
  const rounds = round < 0 ? 1 : Math.max(...rows.map((row) => Number(row[round])));
  return { rounds, places: rows.length / rounds, typed: rows.map((row) => row[height]) };
};

/** Sizes of the joint's chain, with their uncertainties. */
const sizes = () => {
  const measured = rowsOf(example("final-drive/measured.csv")).slice(1);
  return measured.map(([name, value, u]) => ({ name, value, u }));
};

/** A tick, a text, a value ... as a list of fields: `[name of the evidence, part, text]`. */
const tick = (name) => ({ kind: "tick", name });
const say = (name, words) => ({ kind: "text", name, words });
const value = (name, typed, u) => ({ kind: "value", name, typed, u });
const shot = (name) => ({ kind: "photo", name });
const check = (name, more) => ({ kind: "check", name, ...more });

/** What is answered at a step; `half` is there where it differs between the two. */
const answers = {
  "make-safe": [tick("locked-out"), tick("pressure-off")],
  "first-photo": [shot("as-found"), say("leak-story", "weeps since the last wash-down")],
  drain: [value("drained", "7.4"), say("oil-look", "grey, no water")],
  "part-halves": [tick("marked")],
  "look-for-burnt-rubber": [tick("no-burnt-rubber")],
  "read-old-seal": [shot("old-faces"), say("old-seal-reading", "band even, 2 mm wide, bright")],
  "lay-out-kit": [
    tick("agent-and-wipes"),
    tick("oil-covered"),
    tick("tool-there"),
    say("gauge", "see the gauge file"),
  ],
  "match-parts": [say("marks-read", "rings and load rings as on the drawing")],
  "new-or-used": [say("rings-chosen", "new, both")],
  "choose-tool": [say("tool-marks", "15 deg"), tick("tool-fits")],
  "look-at-ring": [tick("ring-sound")],
  "face-flatness": [
    check("bands", { rows: example("checks/bands.csv"), set: { uncertainty: "0.3 mm" } }),
  ],
  "look-at-toric": [tick("toric-sound")],
  "measure-housing": [
    value("ramp-angle", "15.0"),
    value("ramp-diameter-1", "274.5"),
    value("ramp-diameter-2", "274.6"),
    value("depth", "28.0"),
    say("instruments", "bore gauge BG-2"),
  ],
  "check-lip": [tick("lip-smooth")],
  "bearing-play": [tick("bearing-right")],
  "ramp-finish": [
    check("housing-finish", {
      rows: example("checks/ramp-values.csv"),
      set: { uncertainty: "3 %" },
    }),
    check("ring-finish", {
      header: "ra",
      typed: ["0.9 um", "1.1 um"],
      set: { uncertainty: "3 %" },
    }),
    say("roughness-gauge", "RG-1, 0.8 mm"),
  ],
  "accept-housing": [tick("seats-clean"), tick("sizes-right")],
  "choose-agent": [check("agent-check", { set: agent })],
  "clean-sealing-places": [tick("wipe-stays-white"), say("agent", "isopropyl alcohol")],
  "plan-seating": [tick("as-in-file"), check("seating", { set: {} })],
  "mount-toric": [tick("against-stop")],
  "take-out-twist": [tick("parting-line-straight")],
  "wet-toric": [check("wetting-agent", { set: agent }), tick("wet-all-round")],
  "press-in": [tick("pressed-once")],
  "look-all-round": [tick("even-all-round")],
  "level-the-ring": [say("tries", "one")],
  height: [{ kind: "heights", name: "heights", halves: { a: "heights-a", b: "heights-b-try-2" } }],
  "measure-stack": [{ kind: "sizes", name: "stack" }, say("shims", "none")],
  "face-load": [tick("load-read")],
  "dry-out": [
    check("drying-agent", { set: { ...agent, room: "19 degC", since: "50 min" } }),
  ],
  "wipe-faces": [tick("face-a-clean"), tick("face-b-clean")],
  "oil-faces": [tick("film-on-faces")],
  "line-up": [
    check("sweeps", { rows: example("checks/sweeps.csv"), set: { sag: "-0.04 mm" } }),
  ],
  "draw-together": [tick("closed-square")],
  tighten: [value("torque", "120"), say("steps", "three, crosswise")],
  "gap-closed": [
    check("feeler", {
      header: "angle,gap",
      typed: ["0 deg,2.63 mm", "90 deg,2.61 mm", "180 deg,2.61 mm", "270 deg,2.63 mm"],
      set: { bolts: "12" },
    }),
  ],
  "first-turn": [tick("smooth")],
  "test-pressure": [
    value("set-pressure", "0.2", "0.01"),
    say("pressure-gauge", "PG-4, 5 mbar"),
  ],
  "leak-test": [
    check("readings", {
      rows: example("checks/leak-readings.csv"),
      set: {
        pressure: "gauge",
        volume: "3.20 l",
        limit: "0.001 Pa m3/s",
        atmosphere: "101.3 kPa",
      },
    }),
  ],
  fill: [value("filled", "7.9"), say("oil", "as on the job sheet"), tick("vent-clear")],
  "run-in": [value("run-time", "30"), value("temperature", "54", "1")],
  "look-after-run": [tick("dry-outside"), tick("level-right"), shot("after-run")],
  "hand-over": [
    tick("counted"),
    say("old-parts", "shelf 4"),
    shot("first-day"),
    say("looked-at-again", "after 50 h"),
    say("handed-to", "yard"),
  ],
};

/** The gauge that is chosen at a step: by what its name begins with, and by its file. */
const gaugeOf = {
  height: ["DG-07", gauge],
  "measure-stack": ["DG-07", gauge],
  "line-up": ["DI", indicator],
  "gap-closed": ["DG-07", gauge],
};

/** What is answered here. */
export function at(step, half) {
  const found = answers[step];
  if (!found) throw new Error(`nothing is told for the step ${step}`);
  return found.map((one) =>
    one.kind === "heights" ? { ...one, ...heights(one.halves[half]) } : one,
  );
}

/** The gauge here, as `[start of its name, file]`. */
export const gaugeAt = (step) => gaugeOf[step];

/** Rounds of readings at a step; the form offers one unless it is asked for more. */
export const roundsAt = (step, half) =>
  at(step, half).find((one) => one.kind === "heights")?.rounds ?? 1;

/** The fields of a step's form: a list of texts by name, in the order in which they stand. */
export function fieldsAt(step, half) {
  const fields = new Map();
  const put = (name, part, typed) => {
    const key = part === "" ? `given.${name}` : `given.${name}.${part}`;
    fields.set(key, [...(fields.get(key) ?? []), typed]);
  };
  for (const one of at(step, half)) {
    if (one.kind === "tick") put(one.name, "", "yes");
    if (one.kind === "text") put(one.name, "", one.words);
    if (one.kind === "photo") put(one.name, "", { file: photo });
    if (one.kind === "value") {
      put(one.name, "", one.typed);
      if (one.u) put(one.name, "u", one.u);
    }
    if (one.kind === "heights") {
      one.typed.forEach((typed) => put(one.name, "height", typed));
    }
    if (one.kind === "sizes") {
      for (const { value, u } of sizes()) {
        put(one.name, "value", value);
        put(one.name, "u", u);
      }
    }
    if (one.kind === "check") {
      if (one.rows) put(one.name, "file", { file: one.rows });
      if (one.typed) put(one.name, "rows", one.typed.join("\n"));
      for (const [name, typed] of Object.entries(one.set)) put(one.name, `set.${name}`, typed);
    }
  }
  if (gaugeOf[step]) fields.set("gauge", [gaugeOf[step][0]]);
  return fields;
}

/** The same as the deed that the API takes. */
export function deedAt(step, half, gauges) {
  const base64 = (path) => readFileSync(path).toString("base64");
  const chosen = gaugeOf[step] ? { gauge: gauges[gaugeOf[step][1]] } : {};
  const given = at(step, half).map((one) => {
    const { name } = one;
    switch (one.kind) {
      case "tick":
        return { kind: "tick", name, answer: "yes" };
      case "text":
        return { kind: "text", name, text: one.words };
      case "photo":
        return { kind: "photo", name, file: "photo.png", content: base64(photo) };
      case "value": {
        const typed = { kind: "value", name, typed: `${one.typed} ${units[name]}`, ...chosen };
        return one.u ? { ...typed, uncertainty: unitOf(one) } : typed;
      }
      case "heights": {
        const rows = one.typed.map((typed, row) => {
          const round = 1 + Math.floor(row / one.places);
          return `${(360 * (row % one.places)) / one.places},${typed},${round}`;
        });
        const file = { text: `angle_deg,height_mm,round\n${rows.join("\n")}\n` };
        return { kind: "reading-set", name, files: [file], ...chosen };
      }
      case "sizes": {
        const rows = sizes().map(({ name, value, u }) => `${name},${value},${u}`);
        const file = { text: `name,value_mm,u_mm\n${rows.join("\n")}\n` };
        return { kind: "reading-set", name, files: [file], ...chosen };
      }
      default: {
        const files = [];
        if (one.rows) files.push({ origin: "readings.csv", text: text(one.rows) });
        if (one.typed) files.push({ text: `${one.header}\n${one.typed.join("\n")}\n` });
        return { kind: "reading-set", name, files, stated: one.set, ...chosen };
      }
    }
  });
  return { kind: "record", step, half, given };
}

/** The unit of each value, as the procedure shows it. */
const units = {
  drained: "l",
  "ramp-angle": "deg",
  "ramp-diameter-1": "mm",
  "ramp-diameter-2": "mm",
  depth: "mm",
  torque: "N m",
  "set-pressure": "bar",
  filled: "l",
  "run-time": "min",
  temperature: "degC",
};

/** What the command `job record` is given at a step. */
export function optionsAt(step, half) {
  const options = [step, ...(half ? ["--half", half] : [])];
  for (const one of at(step, half)) {
    const { name } = one;
    if (one.kind === "tick") options.push("--tick", name);
    if (one.kind === "text") options.push("--text", `${name}=${one.words}`);
    if (one.kind === "photo") options.push("--photo", `${name}=${photo}`);
    if (one.kind === "value") {
      options.push("--value", `${name}=${one.typed} ${units[name]}`);
      if (one.u) options.push("--uncertainty", `${name}=${unitOf(one)}`);
    }
    if (one.kind === "heights") {
      options.push("--readings", example(`final-drive/${one.halves[half]}.csv`));
    }
    if (one.kind === "sizes") options.push("--readings", example("final-drive/measured.csv"));
    if (one.kind === "check") {
      if (one.rows) options.push("--readings", `${name}=${one.rows}`);
      for (const row of one.typed ?? []) options.push("--row", `${name}=${row}`);
      for (const [set, typed] of Object.entries(one.set)) {
        // A setting stands for all sets of a step.
        if (!options.includes(`--${set}`)) options.push(`--${set}`, typed);
      }
    }
  }
  if (gaugeOf[step]) options.push("--gauge", gaugeOf[step][1]);
  return options;
}

/** Another person at the tablet. */
export const beside = "Cam";
export const passphraseOf = (name) => people[name][1];

/** Goes on through the API, as far as the step at which `stop` says so. */
export async function byApi(fay, job, gauges, stop = () => false) {
  for (let turn = 0; turn < 200; turn += 1) {
    const now = await fay.get(`/api/jobs/${job}`);
    const open = (one) => !["done", "overridden", "not-needed"].includes(one.standing);
    const next = now.steps.find(open);
    if (!next || stop(next)) return next;
    const { step, half, standing } = next;
    if (standing === "unsigned") {
      await fay.act(job, { kind: "sign", step, half });
    } else if (now.events.some((one) => one.kind === "recorded" && same(one, next))) {
      await fay.act(job, second(step, half), { by: cam() });
    } else {
      await fay.act(job, deedAt(step, half, gauges));
    }
  }
  throw new Error("this job does not come to its end");
}

const same = (one, next) => one.step === next.step && one.half === next.half;
const cam = () => ({ name: beside, passphrase: passphraseOf(beside) });
const seconds = {
  "measure-stack": "stack-seen",
  "leak-test": "test-seen",
  "hand-over": "record-read",
};
const second = (step, half) => ({
  kind: "record",
  step,
  half,
  given: [{ kind: "second-person", name: seconds[step] }],
});

/** An uncertainty with its unit; that of a temperature is a difference. */
function unitOf({ name, u }) {
  return `${u} ${units[name] === "degC" ? "K" : units[name]}`;
}
