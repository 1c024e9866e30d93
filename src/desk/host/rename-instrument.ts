import { formulaLimit } from "../../cells/limits.js";
import type { Position, SheetPlace } from "../../cells/place.js";
import { cellAddress } from "../../cells/a1.js";
import { namedInstruments } from "../../formulas/named-instruments.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import { renamedFormula } from "../../formulas/rename.js";
import { nameKey } from "../../instruments/name.js";
import type { OurFormula, Report, Work } from "../../pane/ports/formulas-port.js";
import type { BookCells } from "./book-cells.js";
import { locateInBook, nowhere } from "./locate.js";

type Write = Position & { readonly text: string };

/** Replaces the name of an instrument in formulas, and in the cells from which they take it. */
export async function renameInBook(
  cells: BookCells,
  functions: OwnFunctions,
  formulas: readonly OurFormula[],
  [from, to]: readonly [from: string, to: string],
  { onProgress, signal }: Work,
): Promise<Report> {
  const isName = (text: unknown): boolean => typeof text === "string" && nameKey(text) === nameKey(from);
  const writes = new Map<string, Write>();
  const failures = new Map<string, Report["failed"][number]>();
  const fail = (place: SheetPlace, why: string): void => {
    const failure = { sheet: place.sheet, address: cellAddress(place.row, place.column), why };
    failures.set(JSON.stringify(failure), failure);
  };
  const write = (place: SheetPlace, text: string): void => {
    const cell = { sheet: place.sheet, address: cellAddress(place.row, place.column) };
    const at = cells.place(cell);
    if (at) writes.set(`${at.sheet},${at.row},${at.column}`, { ...at, text });
    else fail(place, nowhere(cell));
  };

  const { places, failed } = locateInBook(cells, formulas);
  for (const lost of failed) failures.set(JSON.stringify(lost), lost);
  for (const { found, ...at } of places) {
    const place = { ...at, sheet: found.sheet };
    const formula = `=${cells.at(place).formula ?? ""}`;
    const { areas, any, defined } = namedInstruments(formula, place, cells.names, functions);
    if (any) fail(place, worksOut(from));
    if (defined.some(isName)) fail(place, inDefinedName(from));
    const renamed = renamedFormula(formula, from, to, functions);
    if (renamed.length > formulaLimit) fail(place, tooLong);
    else if (renamed !== formula) write(place, renamed);
    for (const cell of areas.flatMap((area) => cells.places(area).flat())) {
      const { value, formula: source } = cells.at(cell);
      if (!isName(value)) continue;
      if (source === undefined && cells.isOwn(cell)) write(cell, to);
      else fail(cell, worksOut(from));
    }
  }

  signal.throwIfAborted();
  onProgress(0, writes.size);
  await cells.sheet.write([...writes.values()]);
  await cells.sheet.settled();
  onProgress(writes.size, writes.size);
  return { done: writes.size, failed: [...failures.values()] };
}

const worksOut = (from: string): string =>
  `A formula works out which instrument this is. If it can be "${from}", change the formula by hand.`;
const inDefinedName = (from: string): string =>
  `It takes "${from}" from a defined name that holds it as a text. Change that in a spreadsheet program.`;
const tooLong = `With the new name the formula would have more than ${formulaLimit} characters.`;
