import { areaText } from "../cells/a1.js";
import type { Area, SheetArea } from "../cells/area.js";
import type { SheetPlace } from "../cells/place.js";
import {
  MAX_COLS,
  MAX_ROWS,
  parseA1Ref,
  parseStructRef,
  tokenTypes,
  type RangeA1,
  type ReferenceStructXlsx,
} from "@borgar/fx/xlsx";
import { quotedSheetName } from "./sheet-name.js";
import { tableCells, type TablePart, type TableShape } from "./table-cells.js";
import { literalText } from "./text-literal.js";
import { isSignificant, formulaTokens } from "./tokens.js";

/** Names that formulas can use in a workbook; lookups ignore case. */
export interface Names {
  /** The sheet's name as spelled in the workbook. */
  readonly sheet: (name: string) => string | undefined;
  /** The definition of a defined name, with "=", as seen from a sheet. */
  readonly defined: (name: string, sheet: string) => string | undefined;
  readonly table: (name: string) => TableShape | undefined;
  readonly tableAt: (place: SheetPlace) => TableShape | undefined;
  /** The cells that the formula in a cell fills, for "D4#"; undefined where that cannot be told. */
  readonly spilledFrom: (anchor: SheetPlace) => Area | undefined;
}

/** Result of resolving a reference: cells, a text (from a defined name), or undefined if it cannot be resolved here. */
export type Target = SheetArea | { readonly text: string } | undefined;

/** Reference to an area in a formula on a given sheet. */
export function areaReference({ sheet, top, left, bottom, right }: SheetArea, from: string): string {
  return `${sheet === from ? "" : `${quotedSheetName(sheet)}!`}${areaText({ top, left, bottom, right })}`;
}

/** Resolves a reference written in a cell's formula. */
export function resolveReference(reference: string, at: SheetPlace, names: Names): Target {
  if (reference.endsWith("#")) return resolveSpill(reference.slice(0, -1), at, names);
  const inTable = parseStructRef(reference);
  if (inTable) return resolveTable(inTable, at, names);
  const parsed = parseA1Ref(reference);
  if (!parsed) return undefined;
  // "[0]" is the workbook itself.
  if (parsed.workbookName && parsed.workbookName !== "0") return undefined;
  const sheet = parsed.sheetName ? names.sheet(parsed.sheetName) : at.sheet;
  if (sheet === undefined) return undefined;
  if ("range" in parsed) return { sheet, ...rectangle(parsed.range) };
  return "name" in parsed ? resolveName(parsed.name, { ...at, sheet }, names) : undefined;
}

function resolveSpill(anchor: string, at: SheetPlace, names: Names): Target {
  const cell = resolveReference(anchor, at, names);
  if (!cell || !("sheet" in cell) || cell.top !== cell.bottom || cell.left !== cell.right) return undefined;
  const { sheet, top: row, left: column } = cell;
  const area = names.spilledFrom({ sheet, row, column });
  return area && { sheet, ...area };
}

function rectangle({ top, left, bottom, right }: RangeA1): Area {
  const [a, b] = [top ?? 0, bottom ?? MAX_ROWS];
  const [c, d] = [left ?? 0, right ?? MAX_COLS];
  return { top: Math.min(a, b), bottom: Math.max(a, b), left: Math.min(c, d), right: Math.max(c, d) };
}

/** Resolves a defined name. One that is relative to the cell using it, or that calculates, cannot be resolved here. */
function resolveName(name: string, at: SheetPlace, names: Names): Target {
  const definition = names.defined(name, at.sheet);
  if (definition === undefined) {
    const table = names.table(name);
    return table && cellsOfTable(table, {}, at);
  }
  const [only, ...more] = formulaTokens(definition).filter(
    (p) => isSignificant(p) && p.type !== tokenTypes.FX_PREFIX,
  );
  if (!only || more.length > 0) return undefined;
  if (only.type === tokenTypes.STRING) return { text: literalText(only.value) };
  const parsed = parseA1Ref(only.value);
  const isAbsoluteRange = parsed && "range" in parsed ? parsed.sheetName && isAbsolute(parsed.range) : false;
  return isAbsoluteRange || parseStructRef(only.value) ? resolveReference(only.value, at, names) : undefined;
}

function isAbsolute({ top, left, bottom, right, $top, $left, $bottom, $right }: RangeA1): boolean {
  const edges = [
    [top, $top],
    [left, $left],
    [bottom, $bottom],
    [right, $right],
  ] as const;
  return edges.every(([edge, held]) => typeof edge !== "number" || held === true);
}

/** "[@Glass]" without a table name refers to the table that contains the formula. */
function resolveTable(part: ReferenceStructXlsx, at: SheetPlace, names: Names): Target {
  if (part.workbookName && part.workbookName !== "0") return undefined;
  const table = part.table ? names.table(part.table) : names.tableAt(at);
  return table && cellsOfTable(table, part, at);
}

function cellsOfTable(table: TableShape, part: TablePart, at: SheetPlace): SheetArea | undefined {
  const cells = tableCells(part, table, at.row);
  return typeof cells === "string" ? undefined : { sheet: table.sheet, ...cells };
}
