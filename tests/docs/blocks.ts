// The parts of README and DEVELOPERS that are made: lists that stand somewhere else already, and what can be measured.
import { readFileSync } from "node:fs";
import { catalogue } from "../../src/functions/catalogue.js";
import { NAMESPACE, topics } from "../../src/functions/contract/function-spec.js";
import { measured } from "./accuracy.js";

export const root = new URL("../../", import.meta.url);

/** Which folders there are, and what each may import from, as lint has it. */
export const { below } = (await import(new URL("eslint.config.mjs", root).href)) as {
  readonly below: Readonly<Record<string, readonly string[]>>;
};

const cellOf = (text: string): string => text.replaceAll("|", "\\|");

/** Two digits, without an exponent. */
const twoDigits = (value: number): string => {
  const digits = Number(value.toPrecision(2));
  return digits < 1e-9 ? "0" : digits.toFixed(Math.max(0, 1 - Math.floor(Math.log10(digits))));
};

function functions(): string {
  return topics
    .map((topic) => {
      const rows = catalogue
        .filter((spec) => spec.topic === topic)
        .map(({ name, question }) => `| ${cellOf(question)} | \`${NAMESPACE}.${name}\` |`);
      return `| ${topic} | |\n|---|---|\n${rows.join("\n")}`;
    })
    .join("\n\n");
}

function accuracy(): string {
  const rows = measured().map(
    ({ what, table, off, unit }) => `| ${what} | ${cellOf(table)} | ${`${twoDigits(off)} ${unit}`.trim()} |`,
  );
  return `| What | Held against | Off at most |\n|---|---|---|\n${rows.join("\n")}`;
}

/** What may import from what, as lint has it. */
function dependencies(): string {
  const rows = Object.entries(below).map(
    ([folder, from]) => `| \`${folder}\` | ${from.map((each) => `\`${each}\``).join(" ")} |`,
  );
  return `| folder of src | may import from |\n|---|---|\n${rows.join("\n")}`;
}

/** By the name between the markers. */
export const blocks: Readonly<Record<string, () => string>> = { functions, accuracy, dependencies };

const marker = (name: string): RegExp =>
  new RegExp(`(<!-- ${name}: npm run docs -->)[^]*?(<!-- /${name} -->)`);

export const read = (file: string): string => readFileSync(new URL(file, root), "utf8");

/** What stands between the markers of a block. @throws if the file has no such block */
export function standing(text: string, name: string): string {
  const found = marker(name).exec(text)?.[0];
  if (found === undefined) throw new Error(`There is no block ${name}.`);
  return found;
}

/** A file with its blocks made anew. */
export const filled = (file: string): string =>
  Object.entries(blocks).reduce(
    (text, [name, make]) =>
      text.replace(marker(name), (_, from: string, to: string) => `${from}\n\n${make()}\n\n${to}`),
    read(file),
  );

/** README, the guide for contributors, and what each folder says of itself. */
export const documents: readonly string[] = [
  "README.md",
  "DEVELOPERS.md",
  "tests/README.md",
  ...Object.keys(below).map((folder) => `src/${folder}/README.md`),
];
