import { positionKey, type Position, type SheetPlace } from "../cells/place.js";
import type { Area } from "../cells/area.js";
import type { Book } from "../engine/references/book.js";
import { freshValues } from "../engine/fresh-values.js";
import type { CellErrorReport, CellNote, Recalculation } from "../engine/recalculation.js";
import { workbookNames } from "../engine/references/workbook-names.js";
import { catalogue, specNamed } from "../functions/catalogue.js";
import { NAMESPACE, type FunctionSpec, type Parameter } from "../functions/contract/function-spec.js";
import { resolveReference, type Names } from "../formulas/references.js";
import { callsOurs, typedFormula } from "../formulas/formula-text.js";
import { ownFunctions, type OwnFunctions } from "../formulas/own-calls.js";
import { foundCalls, type FoundCall } from "../formulas/single-call.js";
import type { InstrumentSet } from "../instruments/set.js";
import { fillsSeveral, type CellValue, type Formula, type WorkbookModel } from "../workbook/model.js";

/** A workbook to check, just recalculated. */
export interface CheckedBook {
  readonly model: WorkbookModel;
  readonly result: Recalculation;
  readonly instruments: InstrumentSet;
}

/** A cell and its content. */
export interface SeenCell extends Position {
  readonly value: CellValue;
}

/** An argument: cells, a literal, or something that cannot be told without evaluating it. */
export interface SeenArgument {
  readonly parameter: Parameter;
  readonly cells: readonly SeenCell[];
  /** If it is cells: where they are, and whether there is only one, which then serves for every result. */
  readonly area: (Area & { readonly sheet: number }) | undefined;
  readonly written: number | string | boolean | undefined;
  readonly valueAt: Seen["valueAt"];
}

export interface SeenCall {
  readonly spec: FunctionSpec;
  readonly args: readonly SeenArgument[];
}

/** A formula of ours. */
export interface SeenFormula {
  readonly at: Position;
  readonly sheet: string;
  /** As a user would type it, with "=". */
  readonly typed: string;
  readonly stored: Formula;
  /** The cells that it fills now, if these are several. */
  readonly fills: Area | undefined;
  /** The value stored in the file. */
  readonly storedValue: CellValue;
  /** Each of our functions that it calls, once, without the namespace. */
  readonly called: readonly string[];
  /** Those whose arguments can be told without evaluating them. */
  readonly calls: readonly SeenCall[];
}

/** Everything that the rules look at. */
export interface Seen {
  readonly model: WorkbookModel;
  readonly book: Book;
  readonly names: Names;
  readonly own: OwnFunctions;
  readonly formulas: readonly SeenFormula[];
  readonly errors: readonly (CellErrorReport & { readonly at: Position })[];
  readonly notes: readonly (CellNote & { readonly at: Position })[];
  /** Formulas in the plain form whose cells show the first of several values. */
  readonly cutOff: readonly Position[];
  readonly instruments: InstrumentSet;
  readonly valueAt: (sheet: number, row: number, column: number) => CellValue;
  readonly cellsIn: CellsIn;
}

/** The non-empty cells of an area. */
type CellsIn = (area: Area & { readonly sheet: number }) => readonly SeenCell[];

/** All our formulas, with the cells that their calls read. */
export function seen({ model, result, instruments }: CheckedBook): Seen {
  const { book } = result;
  const names = workbookNames(model, book);
  const own = ownFunctions(NAMESPACE, catalogue);
  const valueAt = freshValues(model, result);
  const cellsIn = cellReader(model, valueAt);
  const fresh = new Map(result.changes.map((change) => [positionKey(change), change.formula]));
  const formulas = model.sheets.flatMap(({ name: sheet, cells }, index) =>
    cells.flatMap(({ row, column, value, formula }): SeenFormula[] => {
      if (!formula || !callsOurs(formula.text, own)) return [];
      const typed = `=${typedFormula(formula.text, own)}`;
      const at = { sheet: index, row, column };
      const found = foundCalls(typed, own);
      const called = [...new Set(found.map(({ name }) => name))];
      const calls = callsOf(found, { sheet, row, column }, { book, names, valueAt }, cellsIn);
      const now = fresh.get(positionKey({ sheet, row, column })) ?? formula;
      const fills = fillsSeveral(now) ? now.area : undefined;
      return [{ at, sheet, typed, stored: formula, fills, storedValue: value, called, calls }];
    }),
  );
  const placed = <T extends SheetPlace>(each: T): T & { readonly at: Position } => ({
    ...each,
    at: { sheet: book.sheetNamed(each.sheet) ?? -1, row: each.row, column: each.column },
  });
  const [errors, notes] = [result.errors.map(placed), result.notes.map(placed)];
  const cutOff = result.cutOff.map((each) => placed(each).at);
  return { model, book, names, own, formulas, errors, notes, cutOff, instruments, valueAt, cellsIn };
}

function callsOf(
  found: readonly FoundCall[],
  at: SheetPlace,
  { book, names, valueAt }: Pick<Seen, "book" | "names" | "valueAt">,
  cellsIn: CellsIn,
): SeenCall[] {
  return found.flatMap(({ name, args }) => {
    if (!args) return [];
    const spec = specNamed(name);
    return {
      spec,
      args: args.flatMap((source, i): SeenArgument[] => {
        const parameter = spec.parameters[i];
        if (!parameter || !source || "call" in source) return [];
        const none = { parameter, cells: [], area: undefined, written: undefined, valueAt };
        if ("value" in source) return [{ ...none, written: source.value }];
        const target = resolveReference(source.reference, at, names);
        if (!target) return [];
        if ("text" in target) return [{ ...none, written: target.text }];
        const area = { ...target, sheet: book.sheetNamed(target.sheet) ?? -1 };
        return [{ ...none, area, cells: cellsIn(area) }];
      }),
    };
  });
}

/** For areas up to this size, look-ups are faster than scanning the sheet. */
const MAX_LOOKUPS = 2000;

/** Reads the non-empty cells of an area; each area once, since many formulas may read the same log. */
function cellReader(model: WorkbookModel, valueAt: Seen["valueAt"]): CellsIn {
  const known = new Map<string, readonly SeenCell[]>();
  const read = reader(model, valueAt);
  return (area) => {
    const key = `${area.sheet},${area.top},${area.left},${area.bottom},${area.right}`;
    const cells = known.get(key) ?? read(area);
    known.set(key, cells);
    return cells;
  };
}

function reader({ sheets }: WorkbookModel, valueAt: Seen["valueAt"]): CellsIn {
  return ({ sheet, top, left, bottom, right }) => {
    const size = (bottom - top + 1) * (right - left + 1);
    if (size > MAX_LOOKUPS)
      return (sheets[sheet]?.cells ?? []).flatMap(({ row, column }) =>
        row >= top && row <= bottom && column >= left && column <= right
          ? [{ sheet, row, column, value: valueAt(sheet, row, column) }]
          : [],
      );
    const cells: SeenCell[] = [];
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++) {
        const value = valueAt(sheet, row, column);
        if (value !== null) cells.push({ sheet, row, column, value });
      }
    return cells;
  };
}

export const argumentNamed = ({ args }: SeenCall, name: string): SeenArgument | undefined =>
  args.find(({ parameter }) => parameter.name === name);

const isOne = ({ top, left, bottom, right }: Area): boolean => top === bottom && left === right;

/**
 * The cell of an argument beside a cell of another argument: in the same line, or the one cell or literal that serves
 * for all.
 */
export function beside(argument: SeenArgument | undefined, cell: SeenCell, of: SeenArgument): CellValue {
  if (!argument) return null;
  if (argument.written !== undefined) return argument.written;
  const { area, valueAt } = argument;
  if (!area || !of.area) return null;
  if (isOne(area)) return valueAt(area.sheet, area.top, area.left);
  const down = area.top === area.bottom ? 0 : cell.row - of.area.top;
  const across = area.left === area.right ? 0 : cell.column - of.area.left;
  return valueAt(area.sheet, area.top + down, area.left + across);
}
