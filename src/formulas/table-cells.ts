import type { Area } from "../cells/area.js";
import type { ReferenceStruct } from "@borgar/fx/xlsx";
import { foldCase } from "./sheet-name.js";

/** What structured references need to know about a table. */
export interface TableShape {
  readonly name: string;
  readonly sheet: string;
  readonly area: Area;
  readonly headerRows: number;
  readonly totalsRows: number;
  readonly columns: readonly string[];
}

/** Columns and sections of a table; all its data if neither is given. */
export type TablePart = Pick<ReferenceStruct, "columns" | "sections">;

/**
 * The cells of a table that a structured reference in a given row refers to, or the error that Excel gives for it.
 *
 * @param reference such as "Table[[#Headers],[a]:[b]]", parsed
 */
export function tableCells(reference: TablePart, table: TableShape, row: number): Area | "#REF!" | "#VALUE!" {
  const columns = columnSpan(table, reference.columns ?? []);
  if (!columns) return "#REF!";
  const sections = reference.sections ?? [];
  const rows = isThisRow(reference) ? thisRow(table, row) : rowSpan(table, sections);
  return typeof rows === "string" ? rows : { ...rows, ...columns };
}

/** Whether it refers to the row that contains the formula. */
export function isThisRow({ sections }: TablePart): boolean {
  return sections?.includes("this row") ?? false;
}

function columnSpan(
  table: TableShape,
  names: readonly string[],
): { left: number; right: number } | undefined {
  const { left, right } = table.area;
  if (names.length === 0) return { left, right };
  const places = names.map((name) =>
    table.columns.findIndex((column) => foldCase(column) === foldCase(name)),
  );
  if (places.includes(-1)) return undefined;
  return { left: left + Math.min(...places), right: left + Math.max(...places) };
}

function rowSpan(table: TableShape, sections: readonly string[]): { top: number; bottom: number } | "#REF!" {
  const { top, bottom } = table.area;
  const firstData = top + table.headerRows;
  const lastData = bottom - table.totalsRows;
  if (sections.includes("all")) return { top, bottom };
  if (sections.includes("headers") && table.headerRows === 0) return "#REF!";
  if (sections.includes("totals") && table.totalsRows === 0) return "#REF!";
  const headers = sections.includes("headers");
  const totals = sections.includes("totals");
  const data = sections.includes("data") || (!headers && !totals);
  return {
    top: headers ? top : data ? firstData : lastData + 1,
    bottom: totals ? bottom : data ? lastData : firstData - 1,
  };
}

function thisRow(table: TableShape, row: number): { top: number; bottom: number } | "#VALUE!" {
  const inside = row >= table.area.top + table.headerRows && row <= table.area.bottom - table.totalsRows;
  return inside ? { top: row, bottom: row } : "#VALUE!";
}
