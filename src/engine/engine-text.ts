import { getNumfmtParseValueFilter } from "@univerjs/core";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../formulas/text-literal.js";
import type { Area } from "../workbook/model.js";
import type { Book, Position } from "./book.js";
import type { Translation } from "./translate.js";
import { lastColumn, lastRow } from "./values.js";
import { referenceText, type WrittenReference } from "./written-reference.js";

/** What the text of a formula depends on beside the formula. */
export interface Surroundings {
  readonly book: Book;
  /** Rows and columns in use: as far as whole columns and rows are read. */
  readonly height: number;
  readonly width: number;
  /** The cells that a dynamic array fills now, by the cell its formula stands in. */
  readonly spilledFrom: (sheet: number, row: number, column: number) => Area | undefined;
}

/** Count cells whether or not they are in use, so they must see whole columns whole. */
const countCells = new Set(["ROWS", "COLUMNS", "COUNTBLANK"]);

/**
 * A formula as Univer reads it: our functions by their typed names, names and tables written out as cells, "A1#" as the
 * range it stands for, whole columns down to the last row in use.
 */
export function engineText(
  { tokens: given, references }: Translation,
  at: Position,
  around: Surroundings,
): string {
  const tokens = withoutPercents(withoutPlusSigns(given));
  const referenceOf = (token: Token | undefined): WrittenReference | undefined =>
    token?.type === tokenTypes.REF_RANGE ? references[Number(token.value)] : undefined;
  const write = (reference: WrittenReference): string => referenceText(reference, at, around.book);
  const writeSpill = (anchor: WrittenReference): string => {
    const area = around.spilledFrom(anchor.sheet, anchor.top, anchor.left);
    return area ? write({ ...anchor, bottom: area.bottom, right: area.right }) : "#REF!";
  };

  let written = "=";
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i];
    if (!token) break;
    const reference = referenceOf(token);
    const called =
      token.type === tokenTypes.FUNCTION && isAlone(tokens, i) ? referenceOf(tokens[i + 2]) : undefined;
    if (called && token.value === "ANCHORARRAY") {
      written += writeSpill(called);
      i += 3;
    } else if (called && token.value === "SINGLE") {
      written += `@${write(called)}`;
      i += 3;
    } else if (reference && tokens[i + 1]?.value === "#") {
      written += writeSpill(reference);
      i += 1;
    } else if (reference) {
      const whole = countCells.has(tokens[i - 2]?.value ?? "");
      written += write(whole ? reference : inUse(reference, around));
    } else written += constant(token);
  }
  return written;
}

function inUse(reference: WrittenReference, { height, width }: Surroundings): WrittenReference {
  const { top, bottom, left, right } = reference;
  return {
    ...reference,
    bottom: top === 0 && bottom === lastRow ? height - 1 : bottom,
    right: left === 0 && right === lastColumn ? width - 1 : right,
  };
}

/** "+" before a value means nothing; Univer would make a number of the value. */
function withoutPlusSigns(tokens: readonly Token[]): readonly Token[] {
  let isValueBefore = false;
  return tokens.filter(({ type, value }) => {
    if (type === tokenTypes.WHITESPACE) return true;
    const isOperator = type === tokenTypes.OPERATOR;
    if (isOperator && value === "+" && !isValueBefore) return false;
    isValueBefore = isOperator ? ")}%#".includes(value) : type !== tokenTypes.FUNCTION;
    return true;
  });
}

/** "x%" as "(x/100)": Univer reads "%" only behind some operands. */
function withoutPercents(tokens: readonly Token[]): readonly Token[] {
  const written: Token[] = [];
  for (const token of tokens) {
    if (token.value !== "%" || token.type !== tokenTypes.OPERATOR) {
      written.push(token);
      continue;
    }
    written.splice(operandStart(written), 0, operator("("));
    written.push(operator("/"), { type: tokenTypes.NUMBER, value: "100" }, operator(")"));
  }
  return written;
}

const operator = (value: string): Token => ({ type: tokenTypes.OPERATOR, value });

/** Where the operand begins that ends the tokens: one token, or a bracket with the function before it. */
function operandStart(tokens: readonly Token[]): number {
  let place = tokens.length - 1;
  while (place > 0 && (tokens[place]?.type === tokenTypes.WHITESPACE || tokens[place]?.value === "#"))
    place--;
  if (tokens[place]?.value !== ")" && tokens[place]?.value !== "}") return place;
  for (let open = 0; place >= 0; place--) {
    const value = tokens[place]?.value;
    if (value === ")" || value === "}") open++;
    if ((value === "(" || value === "{") && --open === 0) break;
  }
  return tokens[place - 1]?.type === tokenTypes.FUNCTION ? place - 1 : place;
}

/** A function with one argument that is one token. */
function isAlone(tokens: readonly Token[], place: number): boolean {
  return tokens[place + 1]?.value === "(" && tokens[place + 3]?.value === ")";
}

/** What Univer would take for something else is written so that it does not. */
function constant({ type, value }: Token): string {
  if (type === tokenTypes.NUMBER) return plainNumber(value);
  // "1,046" would be the number 1046 and "2026-03-01" a date.
  const isText = type === tokenTypes.STRING && getNumfmtParseValueFilter(literalText(value))?.z !== undefined;
  return isText ? `(${value}&"")` : value;
}

/** Univer takes a number with an exponent, or with a 0 behind its last decimal, for text in some places. */
function plainNumber(number: string): string {
  const short = String(Number(number));
  if (!/e/i.test(number) && !short.includes("e")) return short;
  const [mantissa = "0", exponent = "0"] = (/e/i.test(number) ? number.toLowerCase() : short).split("e");
  return `(${String(Number(mantissa))}*10^${String(Number(exponent))})`;
}
