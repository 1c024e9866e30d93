// From an argument as typed into the form to its text in a formula.
import { numberOf } from "../parts/number-text.js";
import type { FunctionInfo } from "../ports/functions-port.js";

export type ParameterInfo = FunctionInfo["parameters"][number];

/** Content of a field: nothing, a value, or cells. */
export type Written =
  | { readonly is: "empty" }
  | { readonly is: "value"; readonly value: number | string; readonly formula: string }
  | { readonly is: "cells"; readonly reference: string; readonly formula: string };

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/**
 * Text that looks like cells: B2, $B$2:B9, C:C, 3:5, B2#, 'Brew day'!B2. Anything else is left for the host to refuse.
 */
const CELLS =
  /^(?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?\$?[A-Za-z]{1,3}\$?\d+(?:#|:\$?[A-Za-z]{1,3}\$?\d+)?$/u;

/**
 * Reads a field. A field for words or names takes text; any other takes a number or cells.
 *
 * @param fromCell whether cells are meant in a field that could also be a name or a word
 */
export function readField(text: string, parameter: ParameterInfo, fromCell: boolean): Written {
  const plain = text.trim();
  if (plain === "") return { is: "empty" };
  const takesWords = parameter.namesInstrument || parameter.choices.length > 0;
  if (takesWords && !fromCell) return { is: "value", value: plain, formula: quoted(plain) };
  const number = numberOf(plain);
  if (number !== undefined) return { is: "value", value: number, formula: String(number) };
  const reference = plain.replace(/^=/, "");
  return { is: "cells", reference, formula: reference };
}

/** Whether a text could refer to cells at all, so that a typing error is reported before the host is asked. */
export const couldBeCells = (text: string): boolean => CELLS.test(text.trim().replace(/^=/, ""));

/** A formula from its arguments; empty ones at the end are omitted. */
export function formulaOf(name: string, args: readonly Written[]): string {
  const texts = args.map((arg) => (arg.is === "empty" ? "" : arg.formula));
  while (texts.at(-1) === "") texts.pop();
  return `=GYLE.${name}(${texts.join(",")})`;
}
