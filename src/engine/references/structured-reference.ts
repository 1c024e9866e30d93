import type { Position } from "../../cells/place.js";
import { parseStructRef } from "@borgar/fx/xlsx";
import { isThisRow, tableCells } from "../../formulas/table-cells.js";
import type { Book } from "./book.js";
import { externalReference, unknownTable, unreadable } from "../messages.js";
import type { WrittenReference } from "./written-reference.js";

/** Result of a structured reference: cells, an error value, or the reason why it cannot be resolved. */
export type Resolved =
  | { readonly kind: "cells"; readonly reference: WrittenReference }
  | { readonly kind: "error"; readonly error: string }
  | { readonly kind: "obstacle"; readonly reason: string };

/** Resolves "Table[[#Headers],[a]:[b]]" and its other forms for a formula at a position. */
export function resolveStructured(text: string, at: Position, book: Book): Resolved {
  const parsed = parseStructRef(text);
  if (!parsed?.table) return { kind: "obstacle", reason: unreadable(text) };
  if (parsed.workbookName) return { kind: "obstacle", reason: externalReference(text) };
  const table = book.table(parsed.table);
  const sheet = table && book.sheetNamed(table.sheet);
  if (!table || sheet === undefined) return { kind: "obstacle", reason: unknownTable(parsed.table) };

  const cells = tableCells(parsed, table, at.row);
  if (typeof cells === "string") return { kind: "error", error: cells };
  const rowsFixed = !isThisRow(parsed);
  return {
    kind: "cells",
    reference: {
      sheet,
      ...cells,
      topFixed: rowsFixed,
      bottomFixed: rowsFixed,
      leftFixed: true,
      rightFixed: true,
    },
  };
}
