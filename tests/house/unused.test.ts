import { fileURLToPath } from "node:url";
import analyze from "ts-unused-exports";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Entries of bundles and of the test runner: who calls them is not in this project. */
const entries = /^(src\/excel\/functions|tests\/support\/(built|reporter)|.*\.config)\.ts$/;

/** A type may be exported for whoever needs to write it down; a value needs somebody who takes it. */
const isValue = (name: string): boolean => !/^[A-Z][A-Za-z]*[a-z]/.test(name);

test("no value is exported that nobody imports", () => {
  const { unusedFiles, ...unused } = analyze(`${root}tsconfig.json`) as unknown as Record<
    string,
    { exportName: string }[]
  >;
  const found = Object.entries(unused).flatMap(([file, names]) =>
    names.map(({ exportName }) => ({ file: file.replace(root, ""), exportName })),
  );
  expect(found.length).toBeGreaterThan(0); // types, and the entries: it has looked
  const values = found.filter(
    ({ file, exportName }) => !entries.test(`${file.replace(/\.ts$/, "")}.ts`) && isValue(exportName),
  );
  expect(values).toEqual([]);
});
