import { fileURLToPath } from "node:url";
import { ESLint } from "eslint";
import { describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
const lint = new ESLint({
  cwd: root,
  // These rules need no types, and reading the project takes its time.
  overrideConfig: { languageOptions: { parserOptions: { projectService: false } } },
  ruleFilter: ({ ruleId }) =>
    ruleId === "no-restricted-imports" ||
    ruleId === "@typescript-eslint/no-restricted-imports" ||
    ruleId === "no-restricted-globals",
});

async function complaints(file: string, text: string): Promise<string[]> {
  const [result] = await lint.lintText(text, { filePath: `${root}${file}` });
  return (result?.messages ?? []).map(({ message }) => message);
}

describe("lint refuses an import that points up or sideways", () => {
  for (const [file, from] of [
    ["src/core/liquid/gravity.ts", "../../instruments/set.js"],
    ["src/core/liquid/gravity.ts", "../../functions/call.js"],
    ["src/core/liquid/gravity.ts", "zod"],
    ["src/core/liquid/gravity.ts", "ml-matrix-more"],
    ["src/instruments/set.ts", "../functions/call.js"],
    ["src/functions/contract/call.ts", "../../excel/functions.js"],
    ["src/functions/contract/call.ts", "../../workbook/model.js"],
    ["src/functions/contract/call.ts", "node:fs"],
    ["src/workbook/model.ts", "../engine/recalculate.js"],
    ["src/excel/functions.ts", "../recalc/main.js"],
    ["src/handover/values.ts", "../recalc/main.js"],
    ["src/engine/plan/plan.ts", "../../handover/values.js"],
    ["src/check/check.ts", "../recalc/main.js"],
    ["src/check/check.ts", "../pane/ports.js"],
    ["src/engine/plan/plan.ts", "../../check/check.js"],
    ["src/pane/workbook/check-screen.ts", "../../check/check.js"],
    ["src/pane/workbook/hand-over-screen.ts", "../../handover/way.js"],
    ["src/pane/ports.ts", "../check/check.js"],
    ["src/pane/cell/cell-screen.ts", "../../functions/catalogue.js"],
    ["src/formulas/references.ts", "../functions/catalogue.js"],
    ["src/functions/contract/call.ts", "../../formulas/references.js"],
    ["src/functions/catalogue.ts", "../help/ranges.js"],
    ["src/help/pages.ts", "../engine/recalculate.js"],
  ] as const)
    test(`${from} in ${file}`, async () => {
      expect(await complaints(file, `import * as x from "${from}";\nexport { x };\n`)).toHaveLength(1);
    });
});

describe("lint lets through an import that points down", () => {
  for (const [file, from] of [
    ["src/instruments/set.ts", "../core/gravity.js"],
    ["src/functions/contract/call.ts", "../../core/gravity.js"],
    ["src/functions/contract/call.ts", "../../instruments/set.js"],
    ["src/core/liquid/gravity.ts", "../numeric/invert.js"],
    ["src/core/numeric/curve-fit.ts", "ml-levenberg-marquardt"],
    ["src/core/numeric/curve-fit.ts", "ml-matrix"],
    ["src/formulas/rename.ts", "../instruments/name.js"],
    ["src/help/ranges.ts", "../core/range.js"],
    ["src/help/worked-example.ts", "../formulas/references.js"],
    ["src/engine/references/translate.ts", "../../formulas/declared-names.js"],
    ["src/handover/values.ts", "../engine/recalculation.js"],
    ["src/recalc/main.ts", "../handover/values.js"],
    ["src/recalc/main.ts", "../check/check.js"],
    ["src/check/check.ts", "../engine/recalculation.js"],
    ["src/recalc/main.ts", "../workbook/model.js"],
  ] as const)
    test(`${from} in ${file}`, async () => {
      expect(await complaints(file, `import * as x from "${from}";\nexport { x };\n`)).toEqual([]);
    });
});

test.each(["functions/explain", "check/check", "handover/way"])(
  "the pane takes types of %s, which ship nothing",
  async (from) => {
    const text = `import type { X } from "../../${from}.js";\nexport type { X };\n`;
    expect(await complaints("src/pane/ports/workbook-port.ts", text)).toEqual([]);
  },
);

test("only src/excel says Excel, Office or CustomFunctions", async () => {
  for (const name of ["Excel", "Office", "CustomFunctions", "document"]) {
    expect(
      await complaints("src/functions/contract/call.ts", `export const x: unknown = ${name};\n`),
    ).toHaveLength(1);
  }
  expect(await complaints("src/excel/functions.ts", "export const x: unknown = Office;\n")).toEqual([]);
});
