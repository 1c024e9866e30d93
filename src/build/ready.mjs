// Makes a fresh clone ready, with nothing but Node: installs what is missing and builds what is out of date. Then runs
// the command that follows, if any: node src/build/ready.mjs dist/recalc.cjs season.xlsx
import { spawnSync } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Modification time of a file, or 0 if it does not exist. */
function age(path) {
  return statSync(root + path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

function newest(folder) {
  return readdirSync(root + folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((latest, { parentPath, name }) => Math.max(latest, statSync(`${parentPath}/${name}`).mtimeMs), 0);
}

function run(command, args, cwd = root) {
  const windows = process.platform === "win32";
  const { status, error } = spawnSync(command, args, {
    cwd,
    stdio: "inherit",
    shell: windows && command === "npm",
  });
  if (error) throw error;
  if (status !== 0) process.exit(status ?? 1);
}

if (age("node_modules/.package-lock.json") < Math.max(age("package-lock.json"), age("package.json"))) {
  console.error("Installing what is missing …");
  run("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"]);
}

/** Whether a built file is older than its sources. */
function isOld(built, sources) {
  const made = [...sources.map(newest), age("package.json"), age("webpack.config.ts")];
  return age(built) < Math.max(...made);
}

const below = [
  "changes",
  "core",
  "instruments",
  "functions",
  "formulas",
  "pane",
  "workbook",
  "engine",
  "handover",
  "check",
  "worker",
];
const sources = (...folders) => folders.map((folder) => `src/${folder}`);

if (isOld("dist/functions.json", sources(...below, "help", "excel", "recalc", "library", "build"))) {
  console.error("Building …");
  run(process.execPath, ["--import", "tsx", "src/build/build.ts", "--only", "add-in"]);
}
// Functions and help pages are copied into it, and change only with these.
if (
  isOld("dist/desk/service-worker.js", [...sources(...below, "help", "excel", "desk", "build"), "examples"])
) {
  console.error("Building the desk …");
  run(process.execPath, ["--import", "tsx", "src/build/build.ts", "--only", "desk"]);
}

const [script, ...args] = process.argv.slice(2);
if (script) run(process.execPath, [root + script, ...args], process.cwd());
