import { parseA1Ref, tokenTypes } from "@borgar/fx/xlsx";
import { withoutPrefix } from "./declared-names.js";
import { readFormula, type OwnFunctions } from "./own-calls.js";
import { isOperator, type Piece } from "./tokens.js";

const names = (list: string): ReadonlySet<string> => new Set(list.split(/\s+/));

/** They give one value, and take single values. */
const ofValues =
  names(`ABS DATE DAY EXACT EXP IF IFERROR IFNA IFS INT ISBLANK ISERR ISERROR ISNA ISNUMBER ISTEXT LEFT LEN LN LOG LOG10
  LOWER MID MOD MONTH NA NOT NOW PI POWER PROPER RIGHT ROUND ROUNDDOWN ROUNDUP SIGN SQRT SUBSTITUTE TEXT TODAY TRIM TRUNC UPPER
  VALUE YEAR`);
/** They give one value, and may take ranges. */
const ofRanges = names(
  "AND AVERAGE CONCATENATE COUNT COUNTA COUNTBLANK MAX MEDIAN MIN OR PRODUCT SUM SUMPRODUCT",
);

const references = new Set<string>([
  tokenTypes.REF_RANGE,
  tokenTypes.REF_BEAM,
  tokenTypes.REF_TERNARY,
  tokenTypes.REF_NAMED,
  tokenTypes.REF_STRUCT,
]);

/**
 * Whether what stands around our calls in a formula means the same in a plain formula as in a dynamic array. In a plain
 * one a range is cut down to one cell wherever a single value is expected, and so are the items of a list. If in doubt,
 * it does not.
 */
export function meansSamePlain(text: string, functions: OwnFunctions): boolean {
  const { solid, calls } = readFormula(text, functions);
  const isInside = solid.map(() => false);
  for (const { first, last } of calls) isInside.fill(true, first, last + 1);
  const open: string[] = [];
  return solid.every((piece, i) => {
    if (isInside[i]) return true;
    if (isOperator(piece, "{", "#", ":", "@")) return false;
    if (isOperator(piece, "("))
      open.push(solid[i - 1]?.type === tokenTypes.FUNCTION ? nameOf(solid[i - 1]) : "");
    else if (isOperator(piece, ")")) open.pop();
    if (piece.type === tokenTypes.FUNCTION) return ofValues.has(nameOf(piece)) || ofRanges.has(nameOf(piece));
    if (!references.has(piece.type) || isOneCell(piece)) return true;
    const isWhole = isOperator(solid[i - 1], "(", ",") && isOperator(solid[i + 1], ")", ",");
    return isWhole && ofRanges.has(open.at(-1) ?? "");
  });
}

const nameOf = (piece: Piece | undefined): string => withoutPrefix(piece?.value ?? "").toUpperCase();

function isOneCell({ value }: Piece): boolean {
  const parsed = parseA1Ref(value);
  if (!parsed || !("range" in parsed)) return false;
  const { top, left, bottom, right } = parsed.range;
  return typeof top === "number" && typeof left === "number" && top === bottom && left === right;
}
