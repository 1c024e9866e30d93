import type { Position } from "../engine/book.js";
import type { Spotted } from "./finding.js";
import type { Seen, SeenFormula } from "./own-calls-seen.js";

const keyOf = ({ sheet, row, column }: Position): string => `${sheet},${row},${column}`;

/**
 * Cells of ours that show an error, but for those whose cause is told already: a cell that was spotted, an instrument that is
 * missing, or another cell of ours in error.
 *
 * @param spotted cells with a fault that our functions refuse
 */
export function errors(seen: Seen, spotted: readonly Position[], unnamed: readonly SeenFormula[]): Spotted[] {
  const causes = new Set([...spotted, ...seen.errors.map(({ at }) => at)].map(keyOf));
  const explained = new Set(unnamed.map(({ at }) => keyOf(at)));
  const formulaAt = formulaOf(seen);
  return seen.errors.flatMap(({ at, code, message }): Spotted[] => {
    const formula = formulaAt(at);
    if (formula && (explained.has(keyOf(formula.at)) || followsFrom(formula, at, causes))) return [];
    const about =
      message === "" ? `${code} comes from elsewhere: look at the cells it is calculated from.` : message;
    return [{ kind: "error", at, about, value: code }];
  });
}

/** Whether one of the cells that a formula gets for one of its results is a cause. */
function followsFrom(formula: SeenFormula, result: Position, causes: ReadonlySet<string>): boolean {
  const [down, across] = [result.row - formula.at.row, result.column - formula.at.column];
  return formula.calls.some(({ spec, args }) =>
    args.some(({ area, cells, parameter }) => {
      if (!area) return false;
      const isList = spec.lists?.includes(parameter.name) || formula.stored.kind === "plain";
      return cells.some(
        (cell) =>
          causes.has(keyOf(cell)) &&
          (isList ||
            ((area.top === area.bottom || cell.row === area.top + down) &&
              (area.left === area.right ||
                cell.column === area.left + across ||
                across > area.right - area.left))),
      );
    }),
  );
}

/** The formula that fills a cell. */
function formulaOf({ formulas }: Seen): (at: Position) => SeenFormula | undefined {
  const own = new Map(formulas.map((formula) => [keyOf(formula.at), formula]));
  const filling = formulas.filter(({ stored }) => stored.kind !== "plain");
  return (at) =>
    own.get(keyOf(at)) ??
    filling.find(({ at: { sheet, row, column }, stored: { area } }) =>
      area
        ? sheet === at.sheet &&
          at.row >= area.top &&
          at.row <= area.bottom &&
          at.column >= area.left &&
          at.column <= area.right
        : sheet === at.sheet && at.column === column && at.row >= row,
    );
}
