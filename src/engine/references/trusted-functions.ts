import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import {
  callAt,
  callAround,
  groupBefore,
  isOperatorToken,
  operandAt,
  type TokenRange,
} from "./calls-in-tokens.js";

const names = (list: string): ReadonlySet<string> => new Set(list.trim().split(/\s+/));

/**
 * Functions whose results depend on their arguments alone, not on language, hidden rows or the place of the formula,
 * and that the tests compare with other programs.
 */
const trusted =
  names(`ABS AND AVERAGE AVERAGEIF AVERAGEIFS CEILING CHOOSE COLUMN COLUMNS COUNT COUNTA COUNTBLANK COUNTIF
  COUNTIFS DATE DAY DEGREES EOMONTH EXP FLOOR HLOOKUP HOUR IF IFERROR IFNA IFS INDEX INDIRECT INT ISBLANK ISERR ISERROR ISEVEN
  ISLOGICAL ISNA ISNUMBER ISODD ISTEXT LARGE LET LN LOG LOG10 LOOKUP MATCH MAX MAXIFS MEDIAN MIN MINIFS MINUTE MOD MONTH MROUND
  N NA NOT NOW OFFSET OR PI POWER PRODUCT QUOTIENT RAND RANDBETWEEN ROUND ROUNDDOWN ROUNDUP ROW ROWS SECOND SIGN SMALL SQRT STDEV
  STDEV.P STDEV.S SUM SUMIF SUMIFS SUMPRODUCT SUMSQ SWITCH TIME TODAY TRANSPOSE TRUNC VLOOKUP WEEKDAY XLOOKUP XMATCH YEAR`);

/** Functions that put numbers into text. */
export const joining = names("CONCAT CONCATENATE FIXED DOLLAR TEXT TEXTJOIN");

/** All other functions of Excel that convert numbers to text or text to numbers. */
export const textual =
  names(`ADDRESS ARRAYTOTEXT ASC BAHTTEXT CELL CLEAN CODE COMPLEX DATEVALUE DBCS ENCODEURL EXACT FIND FINDB
  IMABS IMAGINARY IMARGUMENT IMCONJUGATE IMCOS IMDIV IMEXP IMLN IMPOWER IMPRODUCT IMREAL IMSIN IMSQRT IMSUB IMSUM INFO LEFT LEFTB LEN
  LENB LOWER MID MIDB NUMBERVALUE PHONETIC PROPER REGEXEXTRACT REGEXREPLACE REGEXTEST REPLACE REPLACEB REPT RIGHT RIGHTB SEARCH
  SEARCHB SUBSTITUTE T TEXTAFTER TEXTBEFORE TEXTSPLIT TIMEVALUE TRIM UNICODE UPPER VALUE VALUETOTEXT`);

/** Text built for them is read back by the same program, or is the address of a cell. */
const readBack = names("AVERAGEIF AVERAGEIFS COUNTIF COUNTIFS INDIRECT MAXIFS MINIFS SUMIF SUMIFS");

/** Functions that return text unchanged. */
const passesOn = names("CHOOSE CONCAT CONCATENATE IF IFERROR IFNA IFS SWITCH TEXTJOIN");

/** How far a formula depends on the language of the spreadsheet program, which a file does not state. */
export interface LocaleDependence {
  /** Its text result shows numbers; the stored one tells how they are written. */
  readonly shows: boolean;
  /** It has formats of numbers and dates, which depend on that language. */
  readonly formats: boolean;
  /** Parts that convert between numbers and text without the result showing it. */
  readonly hidden: readonly TokenRange[];
}

export function localeDependenceOf(tokens: readonly Token[]): LocaleDependence {
  let [shows, formats] = [false, false];
  const hidden: TokenRange[] = [];
  for (const [i, token] of tokens.entries()) {
    const isCall = token.type === tokenTypes.FUNCTION;
    const isTextual = isCall && textual.has(token.value);
    const isJoin = isOperatorToken(token, "&") || (isCall && joining.has(token.value));
    if (!isJoin && !isTextual) continue;
    const whole = isCall ? operandAt(tokens, i) : { start: i, end: i + 1 };
    if (isCall && isFormat(tokens, i)) formats = true;
    const site = siteOf(tokens, i);
    if (site === "read back") continue;
    if (site !== "shown") hidden.push(site);
    else if (isTextual) hidden.push(whole);
    else shows = true;
  }
  return { shows, formats, hidden };
}

/** TEXT with a format that is the same in every language does no more than "&". */
function isFormat(tokens: readonly Token[], place: number): boolean {
  const name = tokens[place]?.value;
  if (name !== "TEXT") return name === "FIXED" || name === "DOLLAR";
  const format = callAt(tokens, place)?.args[1];
  const token = format && tokens[format.start];
  const isLiteral = format?.end === (format?.start ?? 0) + 1 && token?.type === tokenTypes.STRING;
  return !(isLiteral && /^[0#%+\-() ]*$/.test(literalText(token.value)));
}

/** Where the text of a join or a text function goes: into the result, back into a criterion, or elsewhere. */
function siteOf(tokens: readonly Token[], place: number): "shown" | "read back" | TokenRange {
  for (let at = place; ;) {
    const around = callAround(tokens, at);
    const stretch = around?.arg ?? { start: 0, end: tokens.length };
    if (around && readBack.has(around.call.name)) return "read back";
    if (isCalculatedWith(tokens, stretch)) return stretch;
    if (!around) return "shown";
    if (!passesOn.has(around.call.name)) return stretch;
    at = around.call.start;
  }
}

const calculating = ["=", "<", ">", "<=", ">=", "<>", "+", "-", "*", "/", "^", "%"];

/** Whether text built within a range of tokens is compared or calculated with there. */
function isCalculatedWith(tokens: readonly Token[], { start, end }: TokenRange): boolean {
  const part = tokens.slice(start, end);
  const makesText = (slice: readonly Token[]): boolean =>
    slice.some(
      (token) =>
        isOperatorToken(token, "&") ||
        (token.type === tokenTypes.FUNCTION && (joining.has(token.value) || textual.has(token.value))),
    );
  let depth = 0;
  return part.some((token, i) => {
    if (isOperatorToken(token, "(", "{")) depth++;
    if (isOperatorToken(token, ")", "}")) depth--;
    if (!isOperatorToken(token, ...calculating)) return false;
    // A comparison has lower precedence than "&", so both of its sides may be built text.
    if (depth === 0 && isOperatorToken(token, "=", "<", ">", "<=", ">=", "<>")) return makesText(part);
    const next = operandAt(part, i + 1);
    const before = part[i - 1];
    return (
      makesText(part.slice(next.start, next.end)) ||
      (before?.value === ")" && makesText(groupBefore(part, i)))
    );
  });
}

/**
 * Whether the engine is trusted with everything in a formula besides our calls: it has only operators, trusted
 * functions, and text built in a way that the result shows.
 */
export function isTrusted(
  tokens: readonly Token[],
  { formats, hidden }: LocaleDependence,
  isOurs: (name: string) => boolean,
): boolean {
  return (
    !formats &&
    hidden.length === 0 &&
    tokens.every(
      ({ type, value }) =>
        type !== tokenTypes.FUNCTION || isOurs(value) || trusted.has(value) || joining.has(value),
    )
  );
}
