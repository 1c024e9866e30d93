import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
const command = `${root}node_modules/ts-unused-exports/bin/ts-unused-exports`;

/** Entries of bundles and of the test runner: who calls them is not in this project. */
const entries = /^(src\/excel\/functions|tests\/support\/(built|reporter)|[\w.]+\.config)\.ts$/;

/** A type may be exported for whoever needs to write it down; a value needs somebody who takes it. */
const isValue = (name: string): boolean => !/^[A-Z][A-Za-z]*[a-z]/.test(name);

test("no value is exported that nobody imports", () => {
  const { stdout } = spawnSync(process.execPath, [command, "tsconfig.json"], { cwd: root, encoding: "utf8" });
  const found = [...stdout.matchAll(/^(\/.+?\.ts): (.+)$/gm)].flatMap(([, file = "", names = ""]) =>
    names.split(", ").map((name) => [file.replace(root, ""), name] as const),
  );
  expect(found.length).toBeGreaterThan(0); // types, and the entries: it has looked
  expect(found.filter(([file, name]) => !entries.test(file) && isValue(name))).toEqual([]);
}, 60_000);
