import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { CellValue } from "../../src/workbook/model.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { convert } from "../support/libreoffice.js";
import { plain, type SheetSketch, type Sketch, workbook, calculated } from "../engine/workbooks.js";
import { columns, errorFormula } from "./data.js";
import { asTyped } from "./signatures.js";

/** What an engine makes of formulas, in their order; undefined where it does not calculate one. */
export type Results = readonly (CellValue | undefined)[];

function dataCells(): [string, CellValue][] {
  return Object.entries(columns).flatMap(([column, values]) =>
    values.map((value, i): [string, CellValue] => [`${column}${i + 2}`, value]),
  );
}

/** The data as formulas of ours, so that all that reads them is calculated. */
export function ours(formulas: readonly string[]): { results: Results; refusals: Map<string, string> } {
  const data: Record<string, Sketch> = {};
  const raw: Record<string, Sketch> = {};
  for (const [address, value] of dataCells()) {
    if (value === null) continue;
    raw[address] = value;
    data[address] = plain(`GYLE.IDENTITY(Raw!${address})`);
  }
  const cells: SheetSketch = Object.fromEntries(formulas.map((text, i) => [`A${i + 1}`, plain(text)]));
  const seeds: SheetSketch = Object.fromEntries(
    formulas.map((_, i) => [`A${i + 1}`, plain(`GYLE.IDENTITY(Formulas!A${i + 1})`)]),
  );
  const after = calculated(workbook({ Formulas: cells, Data: data, Raw: raw, Seeds: seeds }));
  const refusals = new Map(
    after.notes
      .filter(({ sheet }) => sheet === "Formulas")
      .map(({ row, message }) => [formulas[row] ?? "", message]),
  );
  return {
    refusals,
    results: formulas.map((text, i) =>
      refusals.has(text)
        ? undefined
        : (after.at(`Formulas!A${i + 1}`) ?? after.at(`Seeds!A${i + 1}`) ?? null),
    ),
  };
}

const escaped = (text: string): string => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

function cellXml(address: string, value: CellValue): string {
  if (value === null) return "";
  if (typeof value === "number") return `<c r="${address}"><v>${value}</v></c>`;
  if (typeof value === "boolean") return `<c r="${address}" t="b"><v>${Number(value)}</v></c>`;
  if (typeof value === "object")
    return `<c r="${address}"><f>${escaped(errorFormula[value.error] ?? "NA()")}</f></c>`;
  return value === ""
    ? `<c r="${address}"><f>&quot;&quot;</f></c>`
    : `<c r="${address}" t="inlineStr"><is><t xml:space="preserve">${escaped(value)}</t></is></c>`;
}

/** A workbook of the data and of formulas that have no values yet, in column A of the sheet "Formulas". */
export function uncalculated(formulas: readonly string[]): Uint8Array {
  const rows = Array.from({ length: 8 }, (_, i) => {
    const cells = Object.entries(columns).map(([column, values]) =>
      cellXml(`${column}${i + 2}`, values[i] ?? null),
    );
    return `<row r="${i + 2}">${cells.join("")}</row>`;
  });
  const formulaRows = formulas.map(
    (text, i) => `<row r="${i + 1}"><c r="A${i + 1}"><f>${escaped(text)}</f></c></row>`,
  );
  return buildBook({
    sheets: { Formulas: sheetXml(formulaRows.join("")), Data: sheetXml(rows.join("")) },
  });
}

/** So few formulas are given up with the one among them that stops LibreOffice. */
const FEW = 25;

/** There are formulas that LibreOffice crashes over, or never comes to an end with: it is asked again without their part. */
export async function libreOffice(formulas: readonly string[]): Promise<Results> {
  try {
    return await allByLibreOffice(formulas);
  } catch {
    if (formulas.length <= FEW) return formulas.map(() => undefined);
    const half = formulas.length >> 1;
    return [...(await libreOffice(formulas.slice(0, half))), ...(await libreOffice(formulas.slice(half)))];
  }
}

async function allByLibreOffice(formulas: readonly string[]): Promise<Results> {
  const named = functionsIn(formulas);
  const asked = [...formulas, ...named.map((name) => `${name}()`)];
  const cells =
    (await openWorkbook(await convert(uncalculated(asked), "xlsx", true))).model.sheets[0]?.cells ?? [];
  const values = new Map(cells.map(({ row, value }) => [row, known(value)]));
  // IFERROR and its like hide that a function is not there at all.
  const lacking = new Set(named.filter((_, i) => values.get(formulas.length + i) === undefined));
  return formulas.map((text, i) =>
    functionsIn([text]).some((name) => lacking.has(name)) ? undefined : values.get(i),
  );
}

function functionsIn(formulas: readonly string[]): string[] {
  const calls = formulas.flatMap((text) => text.match(/[\w.]+(?=\()/g) ?? []);
  return [...new Set(calls)];
}

/** Where the project's commands are run. */
const WASM = resolve("node_modules/@ironcalc/wasm/wasm_bg.wasm");

export async function ironCalc(formulas: readonly string[]): Promise<Results> {
  const { initSync, Model } = await import("@ironcalc/wasm");
  initSync({ module: readFileSync(WASM) });
  const model = new Model("book", "en", "UTC", "en");
  try {
    model.pauseEvaluation();
    model.newSheet();
    model.renameSheet(1, "Data");
    for (const [address, value] of dataCells()) {
      if (value === null) continue;
      const column = address.charCodeAt(0) - 64;
      const row = Number(address.slice(1));
      model.setUserInput(1, row, column, inputOf(value));
    }
    for (const [i, text] of formulas.entries()) model.setUserInput(0, i + 1, 1, `=${asTyped(text)}`);
    model.updateRangeStyle(
      { sheet: 0, row: 1, column: 1, width: 1, height: formulas.length },
      "num_fmt",
      "0.00000000000000E+00",
    );
    model.resumeEvaluation();
    model.evaluate();
    return formulas.map((_, i) =>
      valueOf(model.getFormattedCellValue(0, i + 1, 1), model.getCellType(0, i + 1, 1)),
    );
  } finally {
    model.free();
  }
}

function inputOf(value: Exclude<CellValue, null>): string {
  if (typeof value === "object") return `=${errorFormula[value.error] ?? "NA()"}`;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "number") return String(value);
  return value === "" ? '=""' : /^[\d.]/.test(value) ? `'${value}` : value;
}

/** #NAME? is the answer of an engine that lacks one of the functions. */
function known(value: CellValue): CellValue | undefined {
  return typeof value === "object" && value?.error === "#NAME?" ? undefined : value;
}

/** Cell types of its own: 1 number, 2 text, 4 truth, 16 error. */
function valueOf(shown: string, type: number): CellValue | undefined {
  if (type === 16) return /^#(?:N\/IMPL|ERROR)/.test(shown) ? undefined : known({ error: shown });
  if (type === 4) return shown === "TRUE";
  return type === 1 ? Number(shown) : shown;
}
