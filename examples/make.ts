// Makes the workbooks and the log beside it: npm run examples
import { readFile, writeFile } from "node:fs/promises";
import { toCol } from "@borgar/fx";
import writeExcelFile, { type SheetData } from "write-excel-file/node";
import { boundFormula } from "../src/formulas/formula-text.js";
import { catalogueFunctions } from "../src/engine/ours/catalogue-functions.js";
import { recalculate } from "../src/engine/recalculate.js";
import { useInstruments } from "../src/functions/contract/instruments-port.js";
import { writePart } from "../src/instruments/part.js";
import { sampleInstruments } from "../src/help/sample-book.js";
import { noInstruments, parseSet, type InstrumentSet } from "../src/instruments/set.js";
import type { CellChange, Formula } from "../src/workbook/model.js";
import { openWorkbook } from "../src/workbook/workbook.js";
import { logCsv } from "./fermentation-log.js";
import { fermentationSheets } from "./fermentation-sheets.js";
import { seasonSheets } from "./season-sheets.js";
import { selfcheckSheets } from "./selfcheck-sheets.js";
import type { Content, ExampleSheet } from "./sheet.js";
import { starterSheets } from "./starter-sheets.js";

const beside = (path: string): URL => new URL(path, import.meta.url);
const functions = catalogueFunctions();

/** A cell without its formula; the cell of a formula, or an empty one, holds a number for now, so that it has its format. */
function plainCell(content: Content): SheetData[number][number] {
  if (content === undefined) return null;
  if (typeof content !== "object")
    return { value: content, type: typeof content === "string" ? String : Number };
  if ("room" in content) return { value: 0, type: Number, format: content.room };
  if (!("value" in content))
    return { value: 0, type: Number, ...(content.format ? { format: content.format } : {}) };
  const { value, format, bold, wide } = content;
  return {
    value,
    type: value instanceof Date ? Date : typeof value === "string" ? String : Number,
    ...(format ? { format } : {}),
    ...(bold ? { fontWeight: "bold" } : {}),
    ...(wide
      ? { wrap: true, alignVertical: "top", bottomBorderStyle: "thin", bottomBorderColor: "#888888" }
      : {}),
  };
}

/** What the formulas are, and which cells become empty again. */
function changesOf({ name, rows }: ExampleSheet): CellChange[] {
  return rows.flatMap((row, r) =>
    row.flatMap((content, c): CellChange[] => {
      if (typeof content !== "object" || "value" in content) return [];
      if ("room" in content) return [{ sheet: name, row: r, column: c, value: null }];
      const text = "ours" in content ? boundFormula(content.ours, functions) : content.native;
      const [rows, columns] = ("ours" in content && content.spills) || [1, 1];
      const area = { top: r, left: c, bottom: r + rows - 1, right: c + columns - 1 };
      const formula: Formula = rows * columns > 1 ? { text, kind: "spill", area } : { text, kind: "plain" };
      return [{ sheet: name, row: r, column: c, value: null, formula }];
    }),
  );
}

/**
 * @param checks the workbook checks whoever opens it, so it keeps no values: a verdict must not be there before it is found. The errors of
 *   this sheet of it are meant
 */
async function make(
  file: string,
  sheets: readonly ExampleSheet[],
  set?: InstrumentSet,
  checks?: string,
): Promise<void> {
  const plain = await writeExcelFile(
    sheets.map((sheet) => ({
      sheet: sheet.name,
      data: sheet.rows.map((row) => row.map(plainCell)),
      columns: sheet.widths.map((width) => ({ width })),
      ...(sheet.frozenRows === undefined ? {} : { stickyRowsCount: sheet.frozenRows }),
    })),
  ).toBuffer();
  useInstruments(set ?? noInstruments);
  const customXml = set ? [{ xml: writePart(set) }] : [];
  const withFormulas = await (await openWorkbook(plain)).patch(sheets.flatMap(changesOf), { customXml });
  const workbook = await openWorkbook(withFormulas);
  const { changes, errors, notes, cycles: loops } = recalculate(workbook.model, functions);
  const wrong = [...errors.filter(({ sheet }) => sheet !== checks), ...notes];
  if (wrong.length + loops.length > 0)
    throw new Error(wrong.map((e) => `${e.sheet}!${toCol(e.column)}${e.row + 1} ${e.message}`).join("\n"));
  await writeFile(beside(file), checks === undefined ? await workbook.patch(changes) : withFormulas);
}

await make("season.xlsx", seasonSheets, parseSet(await readFile(beside("instruments.json"), "utf8")));
await make("starter.xlsx", starterSheets);
await make("fermentation.xlsx", fermentationSheets);
await writeFile(beside("fermentation-log.csv"), logCsv());
await make("selfcheck.xlsx", selfcheckSheets, sampleInstruments, "Cells");
