// Leaves out of Univer's drawing and of the zip library what a sheet does not need. Each place is looked for by its text: another version of Univer that has it
// otherwise stops the build.
import { readFile } from "node:fs/promises";
import type { Plugin } from "esbuild";

/** What stands in its file, once, and what takes its place. */
type Replacements = readonly (readonly [there: string, instead: string])[];

/** Which language a text is in only says how its words are divided, and the rules for that are left out. */
const withoutLanguages: Replacements = [[`import { franc } from "franc-min";`, `const franc = () => "und";`]];

/** It reads font files of the computer where a page has been allowed to, which this one never asks for. */
const withoutFontFiles: Replacements = [
  [`import { parse } from "opentype.js";`, `const parse = () => undefined;`],
  [`!("queryLocalFonts" in window)`, `true`],
];

/** Three regular expressions, for which the page would work out the whole of Unicode. */
async function withSignsWorkedOut(): Promise<Replacements> {
  const name = "cjk-regex"; // one of Univer's packages, of which it has no types
  const cjk = (await import(name)) as Record<string, () => { readonly toRegExp: () => RegExp }>;
  return [
    [`import * as cjk from "cjk-regex";`, ""],
    ...["letters", "all", "punctuations"].map(
      (set) => [`cjk.${set}().toRegExp()`, String(cjk[set]?.().toRegExp())] as const,
    ),
  ];
}

/** @throws if one of them is not there exactly once */
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

/** The zip library's worker, which is switched off (src/workbook/package/unzip.ts). */
const inlineWorker = /[\\/]zip\.js[\\/]lib[\\/]core[\\/]web-worker-inline-wasm\.js$/;

export const lighter: Plugin = {
  name: "lighter",
  setup(to) {
    to.onLoad({ filter: drawing }, async ({ path }) => {
      const all = [...withoutLanguages, ...withoutFontFiles, ...(await withSignsWorkedOut())];
      return { contents: replaced(await readFile(path, "utf8"), all), loader: "js" };
    });
    to.onLoad({ filter: inlineWorker }, () => ({
      contents: "export const configureWebWorker = () => undefined;",
    }));
    hyphenation(to);
  },
};

/** Rules for dividing words of seventy languages. Without them the page is 2 MB lighter. */
function hyphenation(to: Parameters<Plugin["setup"]>[0]): void {
  to.onResolve({ filter: /^\.\/[a-z-]+[0-9]*(-[a-z0-9]+)*-[\w-]{8}\.js$/ }, ({ importer, kind }) =>
    kind === "dynamic-import" && importer.includes("engine-render")
      ? { path: "none", namespace: "empty" }
      : undefined,
  );
  to.onLoad({ filter: /.*/, namespace: "empty" }, () => ({ contents: "export default {}" }));
}
