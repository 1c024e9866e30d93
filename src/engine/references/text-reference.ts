import { lastColumn, lastRow } from "../../cells/limits.js";
import type { Position } from "../../cells/place.js";
import { parseA1Ref, parseR1C1Ref, parseStructRef } from "@borgar/fx/xlsx";
import { isThisRow } from "../../formulas/table-cells.js";
import type { Book } from "./book.js";
import { resolveStructured } from "./structured-reference.js";
import { FormulaError, type Scalar, type PositionedArea } from "../values.js";
import { writtenReference } from "./written-reference.js";

const gone = new FormulaError("#REF!");
const unmoved = { rows: 0, columns: 0 };

/**
 * The cells that a text means to INDIRECT.
 *
 * @param a1 whether it is written as "A1" rather than "R1C1"
 * @returns an error where Excel gives one, undefined if the text means something that is not followed here
 */
export function textReference(
  text: Scalar,
  a1: boolean,
  at: Position,
  book: Book,
): PositionedArea | FormulaError | undefined {
  if (text instanceof FormulaError) return text;
  if (typeof text !== "string" || text === "") return gone;
  return a1 ? fromA1(text, at, book) : fromR1C1(text, at, book);
}

function fromA1(text: string, at: Position, book: Book): PositionedArea | FormulaError | undefined {
  const parsed = text.includes("[") && !text.includes("!") ? undefined : parseA1Ref(text);
  if (!parsed) return fromTable(text, at, book);
  if (isElsewhere(parsed)) return undefined;
  const sheet = parsed.sheetName ? book.sheetNamed(parsed.sheetName) : at.sheet;
  if (sheet === undefined) return gone;
  if ("range" in parsed)
    return parsed.range.trim ? undefined : writtenReference(parsed.range, sheet, unmoved);
  const definition = book.definedName(parsed.name, sheet);
  if (!definition) return book.table(parsed.name) ? fromTable(`${parsed.name}[]`, at, book) : gone;
  const target = parseA1Ref(definition.refersTo);
  // A relative or computed name is not followed.
  if (!target || !("range" in target) || isElsewhere(target) || target.range.trim) return undefined;
  const home = target.sheetName ? book.sheetNamed(target.sheetName) : undefined;
  const found = home === undefined ? undefined : writtenReference(target.range, home, unmoved);
  return found?.topFixed && found.leftFixed && found.bottomFixed && found.rightFixed ? found : undefined;
}

function fromTable(text: string, at: Position, book: Book): PositionedArea | FormulaError | undefined {
  const parsed = parseStructRef(text);
  if (!parsed?.table) return isPlain(text) ? gone : undefined;
  if (isThisRow(parsed)) return undefined;
  const resolved = resolveStructured(text, at, book);
  if (resolved.kind === "cells") return resolved.reference;
  return resolved.kind === "error" ? new FormulaError(resolved.error) : undefined;
}

/** It can only be a name or a number, and there is no such name. */
const isPlain = (text: string): boolean => /^[\p{L}\p{N}_.\\?]+$/u.test(text);

function fromR1C1(text: string, at: Position, book: Book): PositionedArea | FormulaError | undefined {
  const [, sheetPart = "", cells = ""] = /^(.*!)?([^!]*)$/s.exec(text) ?? [];
  const parsed = parseR1C1Ref(sheetPart + cells.toUpperCase());
  if (!parsed) return isPlain(text) ? gone : undefined;
  if (isElsewhere(parsed)) return undefined;
  const sheet = parsed.sheetName ? book.sheetNamed(parsed.sheetName) : at.sheet;
  if (sheet === undefined) return gone;
  if (!("range" in parsed))
    return book.definedName(parsed.name, sheet) || book.table(parsed.name) ? undefined : gone;
  const { r0, r1, c0, c1, $r0, $r1, $c0, $c1 } = parsed.range;
  const [rows, columns] = [lastRow + 1, lastColumn + 1];
  const edge = (value: number, isFixed: boolean | null | undefined, from: number, size: number): number =>
    isFixed ? value : (from + value + size) % size;
  const [top, bottom] =
    typeof r0 === "number" && typeof r1 === "number"
      ? [edge(r0, $r0, at.row, rows), edge(r1, $r1, at.row, rows)]
      : [0, lastRow];
  const [left, right] =
    typeof c0 === "number" && typeof c1 === "number"
      ? [edge(c0, $c0, at.column, columns), edge(c1, $c1, at.column, columns)]
      : [0, lastColumn];
  return {
    sheet,
    top: Math.min(top, bottom),
    bottom: Math.max(top, bottom),
    left: Math.min(left, right),
    right: Math.max(left, right),
  };
}

interface Prefix {
  readonly workbookName?: string | undefined;
  readonly sheetName?: string | undefined;
}

/** In another workbook, or in several sheets. */
const isElsewhere = ({ workbookName, sheetName }: Prefix): boolean =>
  (workbookName ?? "") !== "" || (sheetName?.includes(":") ?? false);
