import type { Area } from "../cells/area.js";
import { freshValues } from "../engine/fresh-values.js";
import { catalogue } from "../functions/catalogue.js";
import { NAMESPACE } from "../functions/contract/function-spec.js";
import { ownFunctions } from "../formulas/own-calls.js";
import { needsArrays } from "../formulas/needs-arrays.js";
import { fillsSeveral, type CellChange, type Formula } from "../workbook/model.js";
import { freeSheetName } from "../workbook/sheet/new-sheet.js";
import { CoefficientSheet, errorText } from "./live/coefficient-sheet.js";
import { LiveCalls, type LivePart } from "./live/live-call.js";
import { formulaPerCell } from "./live/formula-per-cell.js";
import { NotLive } from "./live/not-live.js";
import { ownCells, type BookToHandOver, type OwnCell } from "./own-cells.js";
import { putTogether, asValue, type HandedOver, type Replaced } from "./values.js";

const SAYS =
  "Live without the add-in: formulas of the Gylesheet add-in are replaced by ordinary formulas that follow their cells in any " +
  "spreadsheet program. They are polynomials fitted to the add-in's own functions, with their coefficients on a sheet of their " +
  "own; that sheet and the note on each cell say how far off they were found to be. Outside of what a function covers they show #N/A. An instrument is folded in as it is on this day. What " +
  "cannot be done so is a value, and its note says why.";

/** Replaces our formulas by ordinary ones where possible, and by values elsewhere. */
export function asLive(given: BookToHandOver): HandedOver {
  const { model, result, functions, instruments } = given;
  const cells = ownCells(given);
  const sheet = new CoefficientSheet(
    freeSheetName(
      COEFFICIENTS,
      model.sheets.map(({ name }) => name),
    ),
    given.date,
  );
  const around = {
    book: result.book,
    functions,
    own: ownFunctions(NAMESPACE, catalogue),
    instruments,
    valueAt: freshValues(model, result),
  };
  const formulas = new LiveCalls(around, sheet);
  const handedOver = putTogether(
    given,
    cells,
    SAYS,
    cells.map((cell, i) => {
      given.onProgress?.(i, cells.length);
      return replaced(cell, formulas);
    }),
  );
  return handedOver.report.live === 0
    ? handedOver
    : { ...handedOver, sheets: [sheet.sheet, ...handedOver.sheets] };
}

const COEFFICIENTS = "Gylesheet";

function replaced(cell: OwnCell, formulas: LiveCalls): Replaced {
  try {
    const { formula } = cell;
    return fillsSeveral(formula) ? several(cell, formula.area, formulas) : one(cell, formulas);
  } catch (error) {
    if (!(error instanceof NotLive)) throw error;
    const notLive = error.message;
    return { cell, change: asValue(cell), says: [`A value, not live: ${notLive}.`], isLive: false, notLive };
  }
}

function one(cell: OwnCell, formulas: LiveCalls): Replaced {
  const { text, parts } = formulas.of(cell.formula.text, cell.at);
  const change = { ...asValue(cell), formula: { text, kind: kindOf(cell, formulas) } };
  return { cell, change, says: parts.map(exactness), isLive: true };
}

/**
 * Excel stores a formula with a function of an add-in as a dynamic array, even one of a single value; without ours it is plain,
 * which suits every program, unless something in it needs the form that it had.
 */
const kindOf = ({ typed, formula: { kind } }: OwnCell, { around: { own } }: LiveCalls): Formula["kind"] =>
  kind === "spill" && !needsArrays(typed.slice(1), own) ? "plain" : kind;

/** Each cell that the formula fills gets its own formula; the note stays with the first. */
function several(cell: OwnCell, area: Area, formulas: LiveCalls): Replaced {
  const { at, sheet, formula } = cell;
  const says = new Set<string>();
  const changes = formulaPerCell(formula.text, at, area, formulas.around).map(
    ({ row, column, text }): CellChange => {
      const live = formulas.of(text, { sheet: at.sheet, row, column });
      for (const part of live.parts) says.add(exactness(part));
      const value = formulas.around.valueAt(at.sheet, row, column);
      return { sheet, row, column, value, formula: { text: live.text, kind: "plain" } };
    },
  );
  const [change = asValue(cell), ...more] = changes;
  return { cell, change, more, says: [...says], isLive: true };
}

/** Error of a part of the formula, for the note. */
function exactness({ call, live, measured }: LivePart): string {
  const worst = errorText(measured.worst);
  return `Live without the add-in: ${call.name} within ${worst} ${live.unit} of the add-in's own, measured at ${measured.both} places.`;
}
