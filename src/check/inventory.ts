import type { Position } from "../cells/place.js";
import { cellRuns } from "./cell-runs.js";
import type { Seen } from "./own-calls-seen.js";

/** A function of ours, and the cells of a sheet whose formulas call it. */
export interface FunctionUse {
  /** Without the namespace. */
  readonly name: string;
  /** Such as "E4:E9". */
  readonly cells: readonly string[];
  /** Number of formulas. */
  readonly count: number;
}

/** A sheet with formulas of ours. */
export interface SheetCount {
  readonly sheet: string;
  readonly isProtected: boolean;
  readonly formulas: number;
  /** Cells of ours that show an error, including those caused by other cells. */
  readonly errors: number;
  readonly functions: readonly FunctionUse[];
}

/** Every formula of ours, sheet by sheet. @param errors cells that show one */
export function inventory(
  { model, formulas }: Seen,
  errors: readonly { readonly at: Position }[],
): SheetCount[] {
  return model.sheets
    .map(({ name, isProtected = false }, index) => {
      const here = formulas.filter(({ at }) => at.sheet === index);
      return {
        sheet: name,
        isProtected,
        formulas: here.length,
        errors: errors.filter(({ at }) => at.sheet === index).length,
        functions: uses(here),
      };
    })
    .filter(({ formulas: count }) => count > 0);
}

function uses(formulas: Seen["formulas"]): FunctionUse[] {
  const cells = new Map<string, Position[]>();
  for (const { at, called } of formulas)
    for (const name of called) {
      const known = cells.get(name);
      if (known) known.push(at);
      else cells.set(name, [at]);
    }
  return [...cells].map(([name, ats]) => ({ name, cells: cellRuns(ats), count: ats.length }));
}
