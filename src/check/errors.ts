import type { Position } from "../cells/place.js";
import type { Spotted } from "./finding.js";
import type { Seen, SeenArgument, SeenFormula } from "./own-calls-seen.js";

const keyOf = ({ sheet, row, column }: Position): string => `${sheet},${row},${column}`;

/**
 * Cells of ours that show an error, except those whose cause is already reported: a spotted cell, a missing instrument,
 * or another cell of ours in error.
 *
 * @param spotted cells with a fault that our functions refuse
 * @param told formulas with a fault that explains their error
 */
export function errorFindings(
  seen: Seen,
  spotted: readonly Position[],
  told: readonly SeenFormula[],
): Spotted[] {
  const explained = new Set(told.map(({ at }) => keyOf(at)));
  const causes = new Set([...spotted, ...seen.errors.map(({ at }) => at)].map(keyOf));
  for (const cell of explained) causes.add(cell);
  const isCause = (sheet: number, row: number, column: number): boolean =>
    causes.has(keyOf({ sheet, row, column }));
  const followsFrom = following(isCause);
  const formulaAt = formulaOf(seen);
  return seen.errors.flatMap(({ at, code, message }): Spotted[] => {
    const formula = formulaAt(at);
    if (formula && (explained.has(keyOf(formula.at)) || followsFrom(formula, at))) return [];
    const about =
      message === "" ? `${code} comes from elsewhere: look at the cells it is calculated from.` : message;
    return [{ kind: "error", at, about, value: code }];
  });
}

/**
 * Formulas that could not be calculated here: a note, unless they are ours and show an error, which is reported as
 * such.
 */
export function uncalculated({ notes, formulas, valueAt }: Seen, told: readonly SeenFormula[]): Spotted[] {
  const own = new Set(formulas.map(({ at }) => keyOf(at)));
  const explained = new Set(told.map(({ at }) => keyOf(at)));
  return notes.flatMap(({ at, message }): Spotted[] => {
    if (explained.has(keyOf(at))) return [];
    const value = valueAt(at.sheet, at.row, at.column);
    const isError = typeof value === "object" && value !== null;
    const kind = isError && own.has(keyOf(at)) ? "error" : "unchecked";
    return [{ kind, at, about: message, value: isError ? value.error : String(value ?? "") }];
  });
}

/** Whether one of the cells that a formula reads for one of its results is a cause. */
function following(
  isCause: (sheet: number, row: number, column: number) => boolean,
): (formula: SeenFormula, result: Position) => boolean {
  const lists = new Map<SeenArgument, boolean>();
  const anyOf = (argument: SeenArgument): boolean => {
    const known = lists.get(argument);
    if (known !== undefined) return known;
    const found = argument.cells.some(({ sheet, row, column }) => isCause(sheet, row, column));
    lists.set(argument, found);
    return found;
  };
  return (formula, result) => {
    const [down, across] = [result.row - formula.at.row, result.column - formula.at.column];
    return formula.calls.some(({ spec, args }) =>
      args.some((argument) => {
        const { area, parameter } = argument;
        if (!area) return false;
        if (spec.lists?.includes(parameter.name) || !formula.fills) return anyOf(argument);
        const { sheet, top, left, bottom, right } = area;
        const row = top === bottom ? top : top + down;
        const isOneColumn = left === right || across > right - left;
        const [first, last] = isOneColumn ? [left, right] : [left + across, left + across];
        for (let column = first; column <= last; column++) if (isCause(sheet, row, column)) return true;
        return false;
      }),
    );
  };
}

/** The formula that fills a cell. */
function formulaOf({ formulas }: Seen): (at: Position) => SeenFormula | undefined {
  const own = new Map(formulas.map((formula) => [keyOf(formula.at), formula]));
  const filling = formulas.filter(({ fills }) => fills !== undefined);
  return (at) =>
    own.get(keyOf(at)) ??
    filling.find(
      ({ at: { sheet }, fills: area }) =>
        area &&
        sheet === at.sheet &&
        at.row >= area.top &&
        at.row <= area.bottom &&
        at.column >= area.left &&
        at.column <= area.right,
    );
}
