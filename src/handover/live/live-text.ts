import type { Places } from "../fit/expression.js";
import { refusesZero, type Branch, type LiveFunction } from "./live-function.js";

/** An argument that was folded in: the formula is valid only as long as its cell does not change. */
export interface Folded {
  readonly cell: string;
  /** As written in a formula. */
  readonly literal: string;
}

/** An input as it stands in the formula. */
export interface WrittenInput {
  readonly text: string;
  /** Whether it is a single cell, not something worked out. */
  readonly isCell: boolean;
}

/** A result where conditions hold. Divided by FALSE it is an error, as it is with a text among the inputs: both are #N/A. */
const provided = (conditions: readonly string[], result: string): string =>
  conditions.length === 0 ? result : `IFERROR(${result}/AND(${conditions.join(",")}),NA())`;

const joined = (by: "AND" | "OR", conditions: readonly string[]): string =>
  conditions.length === 1 ? (conditions[0] ?? "") : `${by}(${conditions.join(",")})`;

/**
 * A live function as the text of a formula: blank if an input is empty, #N/A if an input is not a number, a folded
 * argument has changed, or the function would refuse.
 */
export function liveText(
  { inputs, branches }: LiveFunction,
  written: readonly WrittenInput[],
  folded: readonly Folded[],
  places: Places,
): string {
  const texts = inputs.map((each, i) => ({ ...each, ...(written[i] ?? { text: "", isCell: false }) }));
  const blank = texts.flatMap(({ text, whenEmpty, isList, zeroBeside }) => {
    if (whenEmpty === "refused" || whenEmpty === "left-out") return [];
    if (isList) return [`SUMPRODUCT(ISNUMBER(${text})*(${text}<>0))=0`];
    const other = texts.find(({ parameter }) => parameter === zeroBeside)?.text;
    return [
      ...(whenEmpty === "blank-or-0" ? [`${text}=0`] : []),
      ...(other === undefined ? [] : [`AND(${text}=0,OR(${other}=0,TRIM(${other})=""))`]),
      `TRIM(${text})=""`,
    ];
  });
  const single = texts.filter(({ isList, whenEmpty }) => !isList && whenEmpty !== "left-out");
  // COUNT takes a text that was worked out for a number, if it looks like one, but never a text in a cell.
  const [cells, workedOut] = [single.filter(({ isCell }) => isCell), single.filter(({ isCell }) => !isCell)];
  const needed = [
    ...(cells.length === 0 ? [] : [`COUNT(${cells.map(({ text }) => text).join(",")})=${cells.length}`]),
    ...workedOut.map(({ text }) => `ISNUMBER(${text})`),
    ...texts.flatMap(({ text, whenEmpty }) =>
      whenEmpty === "left-out" ? [`OR(ISNUMBER(${text}),TRIM(${text})="")`] : [],
    ),
    ...folded.map(({ cell, literal }) => `TRIM(${cell})=${literal}`),
  ];
  const notZero = texts.filter((each) => refusesZero(each) && !each.isList).map(({ text }) => text);
  const own = texts.map(({ text }) => text);
  const answer = branches.reduceRight((otherwise, { when, conditions, result }: Branch) => {
    const bounds = conditions.map((condition) => condition.write(own, places));
    const fromZero = (text: string, bound: string): boolean => `${bound},`.startsWith(`${text}>=0,`);
    const holds = [
      ...needed,
      ...notZero.filter((text) => !bounds.some((bound) => fromZero(text, bound))).map((text) => `${text}<>0`),
      ...bounds.map((bound) =>
        notZero.some((text) => fromZero(text, bound)) ? bound.replace(">=0", ">0") : bound,
      ),
    ];
    const mine = provided(holds, result.write(own, places));
    return when ? `IF(${when.write(own, places)},${mine},${otherwise})` : mine;
  }, "NA()");
  return blank.length === 0 ? answer : `IF(${joined("OR", blank)},"",${answer})`;
}
