import { parseStructRef } from "@borgar/fx/xlsx";
import type { Table } from "../workbook/model.js";
import { type Book, fold, type Position } from "./book.js";
import { externalReference, unknownTable, unreadable } from "./messages.js";
import type { WrittenReference } from "./written-reference.js";

/** What a structured reference comes to: cells, an error value, or a reason why it cannot be resolved. */
export type Resolved =
  | { readonly kind: "cells"; readonly reference: WrittenReference }
  | { readonly kind: "error"; readonly error: string }
  | { readonly kind: "obstacle"; readonly reason: string };

/** Resolves "Table[[#Headers],[a]:[b]]" and its other forms for a formula that stands at a position. */
export function resolveStructured(text: string, at: Position, book: Book): Resolved {
  const parsed = parseStructRef(text);
  if (!parsed?.table) return { kind: "obstacle", reason: unreadable(text) };
  if (parsed.workbookName) return { kind: "obstacle", reason: externalReference(text) };
  const table = book.table(parsed.table);
  const sheet = table && book.sheetNamed(table.sheet);
  if (!table || sheet === undefined) return { kind: "obstacle", reason: unknownTable(parsed.table) };

  const columns = columnSpan(table, parsed.columns ?? []);
  if (!columns) return { kind: "error", error: "#REF!" };
  const sections = parsed.sections ?? [];
  const rows = sections.includes("this row") ? thisRow(table, at) : rowSpan(table, sections);
  if (typeof rows === "string") return { kind: "error", error: rows };
  const rowsFixed = !sections.includes("this row");
  return {
    kind: "cells",
    reference: {
      sheet,
      ...rows,
      ...columns,
      topFixed: rowsFixed,
      bottomFixed: rowsFixed,
      leftFixed: true,
      rightFixed: true,
    },
  };
}

function columnSpan(table: Table, names: readonly string[]): { left: number; right: number } | undefined {
  const { left, right } = table.area;
  if (names.length === 0) return { left, right };
  const places = names.map((name) => table.columns.findIndex((column) => fold(column) === fold(name)));
  if (places.includes(-1)) return undefined;
  return { left: left + Math.min(...places), right: left + Math.max(...places) };
}

function rowSpan(table: Table, sections: readonly string[]): { top: number; bottom: number } | "#REF!" {
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

function thisRow(table: Table, at: Position): { top: number; bottom: number } | "#VALUE!" {
  const inside =
    at.row >= table.area.top + table.headerRows && at.row <= table.area.bottom - table.totalsRows;
  return inside ? { top: at.row, bottom: at.row } : "#VALUE!";
}
