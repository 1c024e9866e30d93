import { fromCell } from "../../src/engine/grid.js";
import { alikeValues } from "../../src/engine/values.js";
import type { CellValue } from "../../src/workbook/model.js";
import type { Results } from "./engines.js";

/** How the engines stand to each other in one formula. */
export type Verdict =
  | "all agree"
  | "LibreOffice differs"
  | "IronCalc differs"
  | "ours differs"
  /** All have an error, and the others agree on which of several. */
  | "ours is another error"
  | "no two agree"
  | "not calculated here"
  | "one of the others does not calculate it";

export interface Case {
  readonly formula: string;
  readonly verdict: Verdict;
  readonly ours: CellValue | undefined;
  readonly libreOffice: CellValue | undefined;
  readonly ironCalc: CellValue | undefined;
}

/** A blank result shows 0; numbers may differ in what 15 digits do not tell. */
function same(a: CellValue | undefined, b: CellValue | undefined): boolean {
  if (a === undefined || b === undefined) return false;
  const [x, y] = [a ?? 0, b ?? 0];
  if (typeof x === "number" && typeof y === "number" && Math.abs(x - y) < 1e-12) return true;
  return alikeValues(fromCell(x), fromCell(y));
}

export function vote(
  formulas: readonly string[],
  ours: Results,
  libreOffice: Results,
  ironCalc: Results,
): Case[] {
  return formulas.map((formula, i) => {
    const values = { ours: ours[i], libreOffice: libreOffice[i], ironCalc: ironCalc[i] };
    return { formula, ...values, verdict: verdictOf(values.ours, values.libreOffice, values.ironCalc) };
  });
}

/** Into a workbook LibreOffice writes #VALUE! for most of what is #NUM!: from there the two cannot be told apart. */
function asOfficeWrites(
  value: CellValue | undefined,
  libreOffice: CellValue | undefined,
): CellValue | undefined {
  return isError(libreOffice, "#VALUE!") && isError(value, "#NUM!") ? value : libreOffice;
}

const isError = (value: CellValue | undefined, code?: string): boolean =>
  typeof value === "object" && value !== null && value.error === (code ?? value.error);

function verdictOf(
  ours: CellValue | undefined,
  libreOffice: CellValue | undefined,
  ironCalc: CellValue | undefined,
): Verdict {
  if (ours === undefined) return "not calculated here";
  if (libreOffice === undefined || ironCalc === undefined) return "one of the others does not calculate it";
  const withOffice = same(ours, asOfficeWrites(ours, libreOffice));
  const withIron = same(ours, ironCalc);
  if (withOffice && withIron) return "all agree";
  if (withIron) return "LibreOffice differs";
  if (withOffice) return "IronCalc differs";
  if (!same(libreOffice, ironCalc)) return "no two agree";
  return isError(ours) && isError(ironCalc) ? "ours is another error" : "ours differs";
}
