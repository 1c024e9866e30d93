import type { Position } from "../../cells/place.js";
import { translate } from "../../engine/references/translate.js";
import { at as cellOf, commonShape } from "../../functions/contract/broadcast.js";
import { specNamed } from "../../functions/catalogue.js";
import { CellError } from "../../functions/contract/cell-value.js";
import type { Parameter } from "../../functions/contract/function-spec.js";
import { namesSome } from "../../functions/contract/named-throughout.js";
import { areaReference } from "../../formulas/references.js";
import { parseFormula, type ArgumentTokens } from "../../formulas/own-calls.js";
import type { Area } from "../../cells/area.js";
import type { BookAround } from "./live-call.js";
import { NotLive } from "./not-live.js";
import { constantOf, qualifiedFrom } from "./written-call.js";

/** A formula for one of the cells that an array formula filled. */
export interface CellFormula {
  readonly row: number;
  readonly column: number;
  /** Still with our call, but of single cells. */
  readonly text: string;
}

/** More single formulas than this would make the file slow in every program. */
const MAX_CELLS = 5000;

const SEVERAL = "it fills several cells at once";

/**
 * Splits a formula that fills several cells into one for each: a call of a function that works cell by cell.
 *
 * @param area that it fills
 * @throws NotLive for every other formula
 */
export function formulaPerCell(text: string, at: Position, area: Area, around: BookAround): CellFormula[] {
  checkSize(area);
  const { tokens, calls } = parseFormula(text, around.own);
  const [call] = calls;
  if (!call || calls.length > 1 || qualifiedFrom(tokens, call.first) !== 0 || call.last < tokens.length - 1)
    throw new NotLive(SEVERAL);
  if (!("inPlace" in specNamed(call.function.id))) throw new NotLive(SEVERAL);
  const { parameters } = specNamed(call.function.id);
  const cells = call.args.map((argument, i) => cellsOf(argument, parameters[i], text, at, around));
  const { rows, columns } = shapeOf(cells);
  if (rows !== area.bottom - area.top + 1 || columns !== area.right - area.left + 1)
    throw new NotLive(SEVERAL);
  return Array.from({ length: rows * columns }, (_, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const args = cells.map((matrix) => String(cellOf(matrix, row, column)));
    return {
      row: area.top + row,
      column: area.left + column,
      text: `${call.function.name}(${args.join(",")})`,
    };
  });
}

function checkSize({ top, left, bottom, right }: Area): void {
  if ((bottom - top + 1) * (right - left + 1) > MAX_CELLS)
    throw new NotLive(`it goes over more than ${MAX_CELLS} cells at once`);
}

/** Text of each cell of an argument. */
function cellsOf(
  argument: ArgumentTokens,
  parameter: Parameter | undefined,
  text: string,
  at: Position,
  { book, functions, valueAt }: BookAround,
): string[][] {
  const [first, last] = [argument[0], argument.at(-1)];
  if (!first || !last) return [[""]];
  const written = text.slice(first.from, last.from + last.value.length);
  if (constantOf(argument)) return [[written]];
  const [area, ...more] = translate(written, at, book, functions).references;
  if (!area || more.length > 0 || argument.length > 1) throw new NotLive(SEVERAL);
  checkSize(area);
  const each = <T>(cell: (row: number, column: number) => T): T[][] =>
    Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
      Array.from({ length: area.right - area.left + 1 }, (__, c) => cell(area.top + r, area.left + c)),
    );
  // A formula for one row knows nothing of the others, which decide whether a cell may be empty.
  if (
    parameter?.namedThroughout === true &&
    namesSome(each((row, column) => valueAt(area.sheet, row, column)))
  )
    throw new NotLive("not every row of it names its instrument or unit");
  const sheet = book.sheetNames[area.sheet] ?? "";
  return each((row, column) =>
    areaReference(
      { sheet, top: row, bottom: row, left: column, right: column },
      book.sheetNames[at.sheet] ?? "",
    ),
  );
}

function shapeOf(cells: readonly string[][][]): ReturnType<typeof commonShape> {
  try {
    return commonShape(cells);
  } catch (error) {
    if (error instanceof CellError) throw new NotLive(SEVERAL);
    throw error;
  }
}
