import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const src = fileURLToPath(new URL("../../src/", import.meta.url));

/** Names that several files export on purpose, and why. */
const allowed: Readonly<Record<string, string>> = {};

const exported =
  /^export (?:declare )?(?:abstract )?(?:async )?(?:const|function\*?|class|interface|type|enum) (\w+)/gm;

test("a name is exported by one file", () => {
  const files = new Map<string, string[]>();
  for (const file of readdirSync(src, { recursive: true, encoding: "utf8" }).filter((f) =>
    f.endsWith(".ts"),
  )) {
    const names = [...readFileSync(src + file, "utf8").matchAll(exported)].map(([, name = ""]) => name);
    // An overloaded function is one export.
    for (const name of new Set(names)) files.set(name, [...(files.get(name) ?? []), file]);
  }
  expect(files.size).toBeGreaterThan(1000);
  const several = [...files].filter(([name, where]) => where.length > 1 && !(name in allowed));
  expect(several).toEqual([]);
  expect(Object.keys(allowed).filter((name) => (files.get(name)?.length ?? 0) < 2)).toEqual([]);
});
