// Leaves out parts of Univer's drawing that a sheet does not need. Each place is found by its
// text; if another version of Univer has a different text, the build stops.
import { readFile } from "node:fs/promises";
import type { Plugin } from "esbuild";

/** Text that occurs once in its file, and its replacement. */
type Replacements = readonly (readonly [there: string, instead: string])[];

/** The language of a text only determines how words are hyphenated, and those rules are left out. */
const withoutLanguages: Replacements = [[`import { franc } from "franc-min";`, `const franc = () => "und";`]];

/** It reads the computer's font files if the page has permission, for which this page never asks. */
const withoutFontFiles: Replacements = [
  [`import { parse } from "opentype.js";`, `const parse = () => undefined;`],
  [`!("queryLocalFonts" in window)`, `true`],
];

/** Three regular expressions for which the page would otherwise have to enumerate all of Unicode. */
async function withSignsWorkedOut(): Promise<Replacements> {
  const name = "cjk-regex"; // a package of Univer without types
  const cjk = (await import(name)) as Record<string, () => { readonly toRegExp: () => RegExp }>;
  return [
    [`import * as cjk from "cjk-regex";`, ""],
    ...["letters", "all", "punctuations"].map(
      (set) => [`cjk.${set}().toRegExp()`, String(cjk[set]?.().toRegExp())] as const,
    ),
  ];
}

/** @throws if one of them does not occur exactly once */
function replaced(text: string, replacements: Replacements): string {
  return replacements.reduce((result, [there, instead]) => {
    const [before, after, ...more] = result.split(there);
    if (before === undefined || after === undefined || more.length > 0)
      throw new Error(
        `Univer's drawing does not have ${there} once. See what has become of it, and mend src/build/lighter.ts.`,
      );
    return before + instead + after;
  }, text);
}

const drawing = /[\\/]@univerjs[\\/]engine-render[\\/]lib[\\/]es[\\/]index\.js$/;

export const lighter: Plugin = {
  name: "lighter",
  setup(to) {
    to.onLoad({ filter: drawing }, async ({ path }) => {
      const all = [...withoutLanguages, ...withoutFontFiles, ...(await withSignsWorkedOut())];
      return { contents: replaced(await readFile(path, "utf8"), all), loader: "js" };
    });
    hyphenation(to);
  },
};

/** Hyphenation rules of seventy languages. Without them the page is 2 MB lighter. */
function hyphenation(to: Parameters<Plugin["setup"]>[0]): void {
  to.onResolve({ filter: /^\.\/[a-z-]+[0-9]*(-[a-z0-9]+)*-[\w-]{8}\.js$/ }, ({ importer, kind }) =>
    kind === "dynamic-import" && importer.includes("engine-render")
      ? { path: "none", namespace: "empty" }
      : undefined,
  );
  to.onLoad({ filter: /.*/, namespace: "empty" }, () => ({ contents: "export default {}" }));
}
