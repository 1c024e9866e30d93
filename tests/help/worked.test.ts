// What stands on the pages, calculated by another route: cells and formula are taken from the page, put into a workbook, and
// calculated by the engine with the functions bundle that the add-in ships.
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { recalculate } from "../../src/engine/recalculate.js";
import type { Recalculation } from "../../src/engine/recalculation.js";
import { catalogue } from "../../src/functions/catalogue.js";
import { helpFile } from "../../src/functions/metadata.js";
import { helpFiles } from "../../src/help/pages.js";
import { sampleInstruments } from "../../src/help/sample-book.js";
import { loadFunctions, type FunctionsBundle } from "../support/functions-bundle.js";
import { plain, spill, workbook, type Sketch } from "../engine/workbooks.js";
import { figure, reference } from "../support/reference.js";
import { bodyRows, elements, formulaIn, sections, tableNamed, textOf } from "./parts.js";

const files = helpFiles();
const sectionsOf = (name: string) => sections(files.get(helpFile(name)) ?? "");
const section = (name: string, title: string) => {
  const found = sectionsOf(name).get(title);
  if (!found) throw new Error(`${name} has no section ${title}.`);
  return found;
};

const asCell = (text: string): Sketch =>
  text === "" ? null : Number.isNaN(Number(text)) ? text : Number(text);

/** Cells that a page shows, by their addresses. */
function cellsOf(name: string): Record<string, Sketch> {
  const table = tableNamed(section(name, "Worked example"), "Cells of the example");
  if (!table) return {};
  const letters = elements(table, "th")
    .filter(({ attribs }) => attribs["scope"] === "col")
    .slice(1)
    .map((head) => textOf(head).charAt(0));
  return Object.fromEntries(
    bodyRows(table).flatMap(([row = "", ...values]) =>
      values.map((value, c) => [`${letters[c] ?? ""}${row}`, asCell(value)]),
    ),
  );
}

const asShown = (text: string): string | boolean =>
  text === "TRUE" || text === "FALSE" ? text === "TRUE" : text;

let bundle: FunctionsBundle;
beforeAll(() => {
  bundle = loadFunctions(fileURLToPath(new URL("../../dist", import.meta.url)));
  bundle.useInstruments(sampleInstruments);
});

const AT = "K1";
const COLUMN = 10;

function calculated(cells: Record<string, Sketch>, formula: string, kind = spill): Recalculation {
  return recalculate(workbook({ S: { ...cells, [AT]: kind(formula, AT) } }), bundle.functions);
}

/** What a printed text stands for, and how far it may be off: half its last digit, or half a minute. */
function printed(text: string): readonly [value: number, within: number] {
  if (/^\d{4}-\d\d-\d\d \d\d:\d\d$/.test(text))
    return [Date.parse(`${text}Z`) / 86_400_000 + 25_569, 0.5001 / 1440];
  const [number = ""] = /^-?[\d.]+/.exec(text) ?? [];
  const decimals = number.split(".")[1]?.length ?? 0;
  return [Number(number), 0.5001 * 10 ** -decimals];
}

describe("the worked example comes to what the page prints", () => {
  for (const { name } of catalogue)
    test(name, () => {
      const worked = section(name, "Worked example");
      const result = calculated(cellsOf(name), formulaIn(worked));
      const rows = tableNamed(worked, "Result");
      const shown = rows
        ? elements(rows, "tr")
            .slice(1)
            .map((row) => elements(row, "data").map(textOf))
        : [elements(worked, "data").map(textOf)];
      expect(shown.flat().length).toBeGreaterThan(0);
      shown.forEach((row, r) => {
        row.forEach((text, c) => {
          const found =
            result.changes.find(({ row, column }) => row === r && column === COLUMN + c)?.value ?? "";
          if (typeof found !== "number") expect(JSON.stringify(found)).toBe(JSON.stringify(asShown(text)));
          else {
            const [value, within] = printed(text);
            expect([text, Math.abs(found - value) <= within]).toEqual([text, true]);
          }
        });
      });
      expect(result.errors).toEqual([]);
    });
});

describe("every error on the page is what the function says", () => {
  for (const { name } of catalogue)
    test(name, () => {
      const items = elements(section(name, "Errors, and what to do"), "li");
      expect(items.length).toBeGreaterThan(1);
      for (const item of items) {
        const [code = "", holds] = elements(item, "code").map(textOf);
        const [value] = elements(item, "strong").map(textOf);
        const message = textOf(elements(item, "span")[0] ?? item);
        const cells = cellsOf(name);
        if (holds !== undefined && !code.startsWith("="))
          cells[code] = holds === "nothing" ? null : /^"/.test(holds) ? holds.slice(1, -1) : Number(holds);
        const formula = code.startsWith("=") ? code.slice(1) : formulaIn(section(name, "Worked example"));
        const said = calculated(cells, formula).errors.map((error) => [error.code, error.message]);
        expect([code, said]).toEqual([code, expect.arrayContaining([[value, message]])]);
      }
    });
});

test("the worked example of ABV agrees with what was computed elsewhere", () => {
  const row = reference("alcohol-beer-method-comparison").find((each) => each["OG"] === "1.048");
  const [shown = ""] = elements(section("ABV", "Worked example"), "data").map(textOf);
  expect(formulaIn(section("ABV", "Worked example"))).toBe("GYLE.ABV(1.048,1.012)");
  // Its gravities are true, ours apparent: up to 0.05 % vol apart.
  expect(Math.abs(printed(shown)[0] - figure(row, "abv_exact"))).toBeLessThan(0.05);
});

test("how sure it is, is what the cell function says", () => {
  const said = textOf(section("HYDROMETER", "How sure it is"));
  const result = calculated({}, "GYLE.PLUSMINUS.HYDROMETER(1.046,27)", plain).changes[0]?.value;
  expect(said).toContain(`± ${Number(result).toFixed(4)} (k = 2`);
  expect(said).toContain("reading 0.001 higher");
});
