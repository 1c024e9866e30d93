import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import type { Position } from "../../cells/place.js";
import { bare, callAt, isOperatorToken, neighbour, operandAt } from "./calls-in-tokens.js";
import { takesOne } from "../messages.js";
import type { Translation } from "./translation.js";
import type { WrittenReference } from "./written-reference.js";

const names = (list: string): ReadonlySet<string> => new Set(list.split(/\s+/));

/** Their result may be a range, from which "@" takes the cell level with the formula. */
const findsCells = names("INDIRECT OFFSET INDEX");
const passesRangesOn = names("CHOOSE IF IFERROR IFNA IFS SWITCH XLOOKUP LET");
/**
 * They take a single value in each argument, so a range in a formula from before dynamic arrays means one of its cells.
 */
const takesScalars =
  names(`ABS DAY EXP IF IFERROR INT ISBLANK ISERROR ISNUMBER ISTEXT LEFT LEN LN LOG10 LOWER MID MONTH NOT
  RIGHT ROUND ROUNDDOWN ROUNDUP SQRT TEXT TRIM UPPER VALUE YEAR`);

/**
 * A formula with "@" (in files "SINGLE") replaced by the single value it takes: of a range the cell level with the
 * formula, of anything else its first element.
 */
export function withoutAt(translation: Translation, at: Position): Translation {
  if (!translation.tokens.some(isAt)) return translation;
  const tokens = [...translation.tokens];
  const references = [...translation.references];
  let { obstacle } = translation;
  // Backwards, so that inner calls come first.
  for (let i = tokens.length - 1; i >= 0; i--) {
    if (!isAt(tokens[i])) continue;
    const call = callAt(tokens, i);
    const operand = call?.args[0] ?? operandAt(tokens, i + 1);
    const inner = bare(tokens.slice(operand.start, operand.end));
    const single = one(inner);
    if (single === undefined) obstacle ??= takesOne;
    else tokens.splice(i, (call ?? operand).end - i, ...single);
  }
  return { ...translation, tokens, references, ...(obstacle === undefined ? {} : { obstacle }) };

  function one(inner: readonly Token[]): readonly Token[] | undefined {
    const [first] = inner;
    if (!first) return undefined;
    const whole = operandAt(inner, 0).end === inner.length;
    const name = whole && first.type === tokenTypes.FUNCTION ? first.value : "";
    if (first.type === tokenTypes.REF_RANGE && inner.length === 1) return [cellOf(first)];
    const isSpill = name === "ANCHORARRAY" || (whole && inner[1]?.value === "#");
    if (isSpill || findsCells.has(name)) return [...opening("SINGLE"), ...inner, operator(")")];
    const hasRange = inner.some((token) => isRange(token, references));
    if (passesRangesOn.has(name) && hasRange) return undefined;
    if (first.type === tokenTypes.REF_NAMED) return undefined;
    return [...opening("INDEX"), ...inner, operator(","), number, operator(","), number, operator(")")];
  }

  function cellOf(token: Token): Token {
    return levelWith(token, references, at);
  }
}

/**
 * A formula from before dynamic arrays, in which a range stands for the cell level with the formula wherever a single
 * value is expected.
 */
export function intersected(translation: Translation, at: Position): Translation {
  if (!translation.tokens.some((token) => isRange(token, translation.references))) return translation;
  const references = [...translation.references];
  const open: boolean[] = [];
  const tokens = translation.tokens.map((token, i) => {
    const before = translation.tokens[i - 1];
    if (isOperatorToken(token, "("))
      open.push(before?.type !== tokenTypes.FUNCTION || takesScalars.has(before.value));
    else if (isOperatorToken(token, "{")) open.push(false);
    else if (isOperatorToken(token, ")", "}")) open.pop();
    const isJoined = ([-1, 1] as const).some((step) => joins(neighbour(translation.tokens, i, step)));
    return isRange(token, references) && open.every(Boolean) && !isJoined
      ? levelWith(token, references, at)
      : token;
  });
  return { ...translation, tokens, references };
}

/** The cell of a range that is level with a formula, as a token. */
function levelWith(token: Token, references: WrittenReference[], at: Position): Token {
  const range = references[Number(token.value)];
  if (!range) return token;
  const { top, bottom, left, right } = range;
  if (top === bottom && left === right) return token;
  const byRow = left === right && at.row >= top && at.row <= bottom;
  const byColumn = top === bottom && at.column >= left && at.column <= right;
  if (!byRow && !byColumn) return { type: tokenTypes.ERROR, value: "#VALUE!" };
  references.push(
    byRow
      ? { ...range, top: at.row, bottom: at.row, topFixed: false, bottomFixed: false }
      : { ...range, left: at.column, right: at.column, leftFixed: false, rightFixed: false },
  );
  return { type: tokenTypes.REF_RANGE, value: String(references.length - 1) };
}

function isRange(token: Token, references: readonly WrittenReference[]): boolean {
  const range = token.type === tokenTypes.REF_RANGE ? references[Number(token.value)] : undefined;
  return range !== undefined && (range.top !== range.bottom || range.left !== range.right);
}

const isAt = (token: Token | undefined): boolean =>
  isOperatorToken(token, "@") || (token?.type === tokenTypes.FUNCTION && token.value === "SINGLE");
const joins = (token: Token | undefined): boolean =>
  isOperatorToken(token, ":", "#") || token?.type === tokenTypes.REF_RANGE;
const operator = (value: string): Token => ({ type: tokenTypes.OPERATOR, value });
const opening = (name: string): Token[] => [{ type: tokenTypes.FUNCTION, value: name }, operator("(")];
const number: Token = { type: tokenTypes.NUMBER, value: "1" };
