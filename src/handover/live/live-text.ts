import { refusesZero, type Branch, type LiveFunction } from "./live-function.js";

/** An argument that was folded in: the formula is valid only as long as its cell does not change. */
export interface Folded {
  readonly cell: string;
  /** As written in a formula. */
  readonly literal: string;
}

const both = (conditions: readonly string[]): string =>
  conditions.length === 1 ? (conditions[0] ?? "") : `AND(${conditions.join(",")})`;

const either = (conditions: readonly string[]): string =>
  conditions.length === 1 ? (conditions[0] ?? "") : `OR(${conditions.join(",")})`;

/**
 * A live function as the text of a formula: blank if an input is empty, #N/A if an input is not a number, a folded
 * argument has changed, or the function would refuse.
 */
export function liveText(
  { inputs, branches }: LiveFunction,
  written: readonly string[],
  folded: readonly Folded[],
): string {
  const texts = inputs.map((each, i) => ({ ...each, text: written[i] ?? "" }));
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
  const needed = [
    ...texts.flatMap(({ text, whenEmpty, isList }) =>
      isList
        ? []
        : [whenEmpty === "left-out" ? `OR(ISNUMBER(${text}),TRIM(${text})="")` : `ISNUMBER(${text})`],
    ),
    ...folded.map(({ cell, literal }) => `TRIM(${cell})=${literal}`),
  ];
  const notZero = texts.flatMap((each) => (refusesZero(each) && !each.isList ? [`${each.text}<>0`] : []));
  const answer = branches.reduceRight((otherwise, branch) => {
    const own = branchText(branch, written, notZero);
    return branch.when ? `IF(${branch.when.write(written)},${own},${otherwise})` : own;
  }, "NA()");
  const checked = needed.length === 0 ? answer : `IF(${both(needed)},${answer},NA())`;
  return blank.length === 0 ? checked : `IF(${either(blank)},"",${checked})`;
}

function branchText(
  { conditions, result }: Branch,
  written: readonly string[],
  more: readonly string[],
): string {
  const all = [...more, ...conditions.map((condition) => condition.write(written))];
  const text = result.write(written);
  return all.length === 0 ? text : `IF(${both(all)},${text},NA())`;
}
