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
import { quoted } from "./sheet-name.js";
import { tableCells, type TablePart, type TableShape } from "./table-cells.js";
import { literalText } from "./text-literal.js";
import { isSolid, pieces } from "./tokens.js";

/** What formulas can name in a workbook, in any letter case. */
export interface Names {
  /** The sheet's name as it is spelled there. */
  readonly sheet: (name: string) => string | undefined;
  /** What a defined name stands for, with "=", as seen from a sheet. */
  readonly defined: (name: string, sheet: string) => string | undefined;
  readonly table: (name: string) => TableShape | undefined;
  readonly tableAt: (place: SheetPlace) => TableShape | undefined;
  /** The cells that the formula in a cell fills, for "D4#"; undefined where that cannot be told. */
  readonly spilledFrom: (anchor: SheetPlace) => Area | undefined;
}

/** What a reference leads to: cells, a text (by a defined name), or nothing that can be told from here. */
export type Target = SheetArea | { readonly text: string } | undefined;

/** Cells as a formula in a sheet refers to them. */
export function areaReference({ sheet, top, left, bottom, right }: SheetArea, from: string): string {
  return `${sheet === from ? "" : `${quoted(sheet)}!`}${areaText({ top, left, bottom, right })}`;
}

/** Follows a reference that is written in a formula of a cell. */
export function follow(reference: string, at: SheetPlace, names: Names): Target {
  if (reference.endsWith("#")) return followSpill(reference.slice(0, -1), at, names);
  const inTable = parseStructRef(reference);
  if (inTable) return followTable(inTable, at, names);
  const parsed = parseA1Ref(reference);
  if (!parsed) return undefined;
  // "[0]" is the workbook itself.
  if (parsed.workbookName && parsed.workbookName !== "0") return undefined;
  const sheet = parsed.sheetName ? names.sheet(parsed.sheetName) : at.sheet;
  if (sheet === undefined) return undefined;
  if ("range" in parsed) return { sheet, ...rectangle(parsed.range) };
  return "name" in parsed ? followName(parsed.name, { ...at, sheet }, names) : undefined;
}

function followSpill(anchor: string, at: SheetPlace, names: Names): Target {
  const cell = follow(anchor, at, names);
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

/** A name that moves with the cell that uses it, or that calculates, leads nowhere that can be told from here. */
function followName(name: string, at: SheetPlace, names: Names): Target {
  const definition = names.defined(name, at.sheet);
  if (definition === undefined) {
    const table = names.table(name);
    return table && cellsOfTable(table, {}, at);
  }
  const [only, ...more] = pieces(definition).filter((p) => isSolid(p) && p.type !== tokenTypes.FX_PREFIX);
  if (!only || more.length > 0) return undefined;
  if (only.type === tokenTypes.STRING) return { text: literalText(only.value) };
  const parsed = parseA1Ref(only.value);
  const isSteady = parsed && "range" in parsed ? parsed.sheetName && isFixed(parsed.range) : false;
  return isSteady || parseStructRef(only.value) ? follow(only.value, at, names) : undefined;
}

function isFixed({ top, left, bottom, right, $top, $left, $bottom, $right }: RangeA1): boolean {
  const edges = [
    [top, $top],
    [left, $left],
    [bottom, $bottom],
    [right, $right],
  ] as const;
  return edges.every(([edge, held]) => typeof edge !== "number" || held === true);
}

/** "[@Glass]" without a table is of the table that the formula stands in. */
function followTable(part: ReferenceStructXlsx, at: SheetPlace, names: Names): Target {
  if (part.workbookName && part.workbookName !== "0") return undefined;
  const table = part.table ? names.table(part.table) : names.tableAt(at);
  return table && cellsOfTable(table, part, at);
}

function cellsOfTable(table: TableShape, part: TablePart, at: SheetPlace): SheetArea | undefined {
  const cells = tableCells(part, table, at.row);
  return typeof cells === "string" ? undefined : { sheet: table.sheet, ...cells };
}
