import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import type { FormulaCell } from "../plan/formula-cells.js";
import { placesOf, storedArea } from "../plan/formula-cells.js";
import type { Grid } from "../grid.js";
import { joining, type LocaleDependence, textual } from "../references/trusted-functions.js";
import { isOperatorToken, type TokenRange } from "../references/calls-in-tokens.js";
import type { Translation } from "../references/translation.js";
import { identical, Values, type FormulaValue, type Scalar, type PositionedArea } from "../values.js";

// How numbers, dates and TRUE are written in text depends on the language of the author's spreadsheet program, which
// the file does not state. Reproducing a stored text proves little: "x5" is the same in every language, "x5.5" is not.
// So a new text may only use what the stored one shows: no decimal sign, no second group of digits and no word that is
// not in it. If numbers become text that the result does not show (LEN, LEFT, a comparison), only whole numbers or the
// previous values are accepted: these are written alike everywhere.

/** Most cells of a range that are examined. */
const MAX_CELLS = 10_000;

/** Functions that read texts as numbers or dates. */
const reading = new Set(["VALUE", "NUMBERVALUE", "DATEVALUE", "TIMEVALUE"]);
/** Functions that turn whole numbers into whole numbers only, or into none. */
const harmless = new Set(
  "CHOOSE COLUMN COLUMNS COUNT COUNTA IF IFERROR IFNA INDEX INT ISBLANK ISNUMBER ISTEXT MATCH NOT OR AND ROW ROWS SUM MAX MIN".split(
    " ",
  ),
);

/**
 * Whether a result could be different in another language.
 *
 * @param formula as seen from its cell
 * @param dependence of the same formula on the language
 * @param reads everything that it reads
 */
export function dependsOnLocale(
  cell: FormulaCell,
  formula: Translation,
  dependence: LocaleDependence,
  reads: readonly PositionedArea[],
  fresh: FormulaValue,
  now: Grid,
  stored: Grid,
): boolean {
  const { shows, formats, hidden } = dependence;
  if (hidden.some((stretch) => !isQuiet(stretch, formula, now, stored))) return true;
  if (!shows) return false;
  const literals = formula.tokens.flatMap(({ type, value }) =>
    type === tokenTypes.STRING ? [literalText(value)] : [],
  );
  const texts = (grid: Grid): string[] => [...literals, ...reads.flatMap((area) => textsIn(area, grid))];
  const before = placesOf(storedArea(cell)).map(([row, column]) => stored.get(cell.sheet, row, column));
  const shown = marksOf(before, texts(stored), formats);
  return [...marksOf(elementsOf(fresh), texts(now), formats)].some((mark) => !isShown(mark, shown));
}

/** Whether a part of a formula holds no number that languages write differently, or nothing in it has changed. */
function isQuiet(
  { start, end }: TokenRange,
  { tokens, references }: Translation,
  now: Grid,
  stored: Grid,
): boolean {
  const part = tokens.slice(start, end);
  const areas = part.flatMap((token) => (isRange(token) ? (references[Number(token.value)] ?? []) : []));
  const finds = part.some(({ value }) => value === "INDIRECT" || value === "OFFSET");
  const valuesIn = (area: PositionedArea, grid: Grid): Scalar[] | undefined =>
    sizeOf(area, grid) > MAX_CELLS
      ? undefined
      : placesOf(inUse(area, grid)).map(([row, column]) => grid.get(area.sheet, row, column));
  const seen = areas.map((area) => [valuesIn(area, now), valuesIn(area, stored)] as const);
  const asBefore = ([a, b]: (typeof seen)[number]): boolean =>
    a !== undefined && a.length === b?.length && a.every((value, i) => identical(value, b[i] ?? null));
  if (
    !finds &&
    part.every(({ type, value }) => type !== tokenTypes.FUNCTION || !clocks.has(value)) &&
    seen.every(asBefore)
  )
    return true;
  const makesFractions = part.some(
    (token) =>
      isOperatorToken(token, "/", "^", "%") ||
      (token.type === tokenTypes.NUMBER && !Number.isInteger(Number(token.value))) ||
      (token.type === tokenTypes.FUNCTION && !isHarmless(token.value)),
  );
  const reads = part.some(({ value }) => reading.has(value));
  return (
    !makesFractions && seen.every(([values]) => values?.every((value) => isAlike(value, reads)) ?? false)
  );
}

const clocks = new Set(["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY"]);
const isHarmless = (name: string): boolean =>
  harmless.has(name) ||
  ((textual.has(name) || joining.has(name)) && !["TEXT", "FIXED", "DOLLAR"].includes(name));

/** Whether a value is the same text in every language. */
function isAlike(value: Scalar, isRead: boolean): boolean {
  if (typeof value === "number") return Number.isInteger(value) && Math.abs(value) < 1e15;
  if (typeof value === "string") return !isRead || /^\d*$/.test(value);
  return typeof value !== "boolean";
}

/** The separators and words in texts, apart from known literals. */
function marksOf(values: readonly Scalar[], known: readonly string[], hasFormats: boolean): Set<string> {
  const marks = new Set<string>();
  const longestFirst = [...new Set(known)].filter((text) => text !== "").sort((a, b) => b.length - a.length);
  for (const value of values) {
    if (typeof value !== "string") continue;
    const rest = longestFirst
      .reduce((text, each) => text.split(each).join("\n"), value)
      .replace(/[\d.,'’\u00a0\u202f]*\d[\d.,'’\u00a0\u202f]*/gu, (number) => {
        const mark = number.replace(/\d/g, "");
        if (mark !== "") marks.add(mark);
        return " ";
      });
    for (const [word] of rest.matchAll(/\p{L}+|[^\s\p{L}]/gu))
      if (/^(TRUE|FALSE)$/.test(word)) marks.add("TRUE");
      else if (/^e$/i.test(word) || (hasFormats && !"-+%()".includes(word))) marks.add(word);
  }
  return marks;
}

/** "1,234.5" shows how "4.7" is written, but "1,234" does not show how millions are. */
const isShown = (mark: string, shown: ReadonlySet<string>): boolean =>
  [...shown].some((each) => each === mark || (/^[^\p{L}]+$/u.test(mark) && each.includes(mark)));

function textsIn(area: PositionedArea, grid: Grid): string[] {
  if (sizeOf(area, grid) > MAX_CELLS) return [];
  return placesOf(inUse(area, grid)).flatMap(([row, column]) => {
    const value = grid.get(area.sheet, row, column);
    return typeof value === "string" ? [value] : [];
  });
}

const inUse = (area: PositionedArea, { height, width }: Grid): PositionedArea => ({
  ...area,
  bottom: Math.min(area.bottom, height - 1),
  right: Math.min(area.right, width - 1),
});

function sizeOf(area: PositionedArea, grid: Grid): number {
  const { top, left, bottom, right } = inUse(area, grid);
  return Math.max(0, bottom - top + 1) * Math.max(0, right - left + 1);
}

const isRange = ({ type }: Token): boolean => type === tokenTypes.REF_RANGE;
const elementsOf = (value: FormulaValue): readonly Scalar[] =>
  value instanceof Values ? value.rows.flat() : [value];
