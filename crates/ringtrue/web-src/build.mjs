// Bundles the scripts into the one file that the program ships, and the hash of all that it was
// made from beside it; `--check` only says whether both are fresh.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = new URL(".", import.meta.url);
const bundle = new URL("../assets/web/bench.js", here);
const made = new URL("../assets/bench.js.sources", here);

/** Name and hash of each source; a test of the program reads the same list. */
function sources() {
  const scripts = readdirSync(new URL("src/", here)).map((name) => `src/${name}`);
  const names = ["build.mjs", "package-lock.json", "package.json", "tsconfig.json", ...scripts];
  const line = (name) => {
    const hash = createHash("sha256").update(readFileSync(new URL(name, here))).digest("hex");
    return `${hash}  ${name}\n`;
  };
  return names.sort().map(line).join("");
}

const built = await build({
  absWorkingDir: fileURLToPath(here),
  entryPoints: ["src/main.ts"],
  bundle: true,
  minify: true,
  format: "iife",
  target: ["chrome110", "firefox110", "safari16"],
  legalComments: "none",
  write: false,
});
const text = built.outputFiles[0].text;
if (process.argv.includes("--check")) {
  const fresh = readFileSync(bundle, "utf8") === text && readFileSync(made, "utf8") === sources();
  if (!fresh) {
    console.error("the bundle is not made from these sources: `npm run build`");
    process.exit(1);
  }
} else {
  writeFileSync(bundle, text);
  writeFileSync(made, sources());
}
