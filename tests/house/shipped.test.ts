import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

const root = new URL("../../", import.meta.url);
const text = (path: string | URL): string => readFileSync(new URL(path, root), "utf8");

/** Packages that a file imports, or one that it imports. */
function imported(file: URL, seen = new Set<string>(), packages = new Set<string>()): Set<string> {
  if (seen.has(file.href)) return packages;
  seen.add(file.href);
  for (const [, name = ""] of text(file).matchAll(/^(?:import|export) (?!type )[^;]*?from "([^"]+)";/gm))
    if (name.startsWith(".")) imported(new URL(name.replace(/\.js$/, ".ts"), file), seen, packages);
    else packages.add(name);
  return packages;
}

/** Packages with all that they ask for, and what each may be used under. */
function licences(names: Iterable<string>, found: Record<string, string> = {}): Record<string, string> {
  for (const name of names) {
    if (found[name] !== undefined) continue;
    const { license, dependencies } = JSON.parse(text(`node_modules/${name}/package.json`)) as {
      license: string;
      dependencies?: Record<string, string>;
    };
    found[name] = license;
    licences(Object.keys(dependencies ?? {}), found);
  }
  return found;
}

// Whatever else gets into functions.js is fetched by everyone who opens a workbook.
test("the functions bundle ships our code and a least-squares fitter with its matrices", () => {
  expect(licences(imported(new URL("src/excel/functions.ts", root)))).toEqual({
    "ml-levenberg-marquardt": "MIT",
    "ml-matrix": "MIT",
    "ml-array-rescale": "MIT",
    "ml-array-max": "MIT",
    "ml-array-min": "MIT",
    "is-any-array": "MIT",
  });
});
