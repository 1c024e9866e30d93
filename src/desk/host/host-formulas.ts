import type { CellAddress, SheetPlace } from "../../cells/place.js";
import { cellAddress } from "../../cells/a1.js";
import { distinctNames, nameInCell, namedInstruments } from "../../formulas/named-instruments.js";
import { parseFormula, type OwnFunctions } from "../../formulas/own-calls.js";
import { onlyCall } from "../../formulas/single-call.js";
import type { Call, Formulas, OurFormula, Report, Work } from "../../pane/ports/formulas-port.js";
import type { CellValue } from "../../workbook/model.js";
import { shownValue, type BookCells } from "./book-cells.js";
import type { KeptNumbers } from "../book/kept-numbers.js";
import { locateInBook, nowhere } from "./locate.js";
import { renameInBook } from "./rename-instrument.js";

/** The most steps in which formulas are recalculated: each searches the whole workbook for dependents. */
const STEPS = 5;
const FEWEST_AT_ONCE = 50;

/** Lets the page draw progress and react to a stop. */
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** Finds our formulas in the sheet on the page and recalculates them. */
export class DeskFormulas implements Formulas {
  constructor(
    private readonly cells: BookCells,
    private readonly functions: OwnFunctions,
    private readonly numbers: Pick<KeptNumbers, "ask" | "missingFor">,
    /** Makes the next save write our formulas as spreadsheet programs need them. */
    private readonly rewrite: () => void,
  ) {}

  readonly find = async (work: Work): Promise<readonly OurFormula[]> => {
    const found: OurFormula[] = [];
    const { sheetNames, sheet } = this.cells;
    for (const [index, name] of sheetNames.entries()) {
      work.onProgress(index, sheetNames.length);
      await turn();
      work.signal.throwIfAborted();
      for (const { row, column, formula, value } of sheet.cells(index))
        if (formula !== undefined && parseFormula(`=${formula}`, this.functions).calls.length > 0)
          found.push(this.#described({ sheet: name, row, column }, `=${formula}`, value));
    }
    return found;
  };

  readonly calls = (formulas: readonly OurFormula[]): Promise<readonly (Call | undefined)[]> =>
    Promise.resolve().then(() => formulas.map((formula) => this.#call(formula)));

  readonly recalculate = async (formulas: readonly OurFormula[], work: Work): Promise<Report> => {
    const { places, failed } = locateInBook(this.cells, formulas);
    this.numbers.ask(places);
    const atOnce = Math.max(FEWEST_AT_ONCE, Math.ceil(places.length / STEPS));
    for (let done = 0; done < places.length; done += atOnce) {
      work.onProgress(done, formulas.length);
      await turn();
      work.signal.throwIfAborted();
      await this.cells.sheet.recalculate(places.slice(done, done + atOnce));
    }
    return { done: places.length, failed };
  };

  readonly rename = (
    formulas: readonly OurFormula[],
    from: string,
    to: string,
    work: Work,
  ): Promise<Report> => renameInBook(this.cells, this.functions, formulas, [from, to], work);

  /** Here all formulas are bound to our functions; the next save rewrites them in the file. */
  readonly repair = (cells: readonly CellAddress[]): Promise<Report> => {
    this.rewrite();
    return Promise.resolve({ done: cells.length, failed: [] });
  };

  readonly show = (cell: CellAddress): Promise<void> => {
    const place = this.cells.place(cell);
    if (!place) return Promise.reject(new Error(nowhere(cell)));
    this.cells.sheet.reveal(place);
    return Promise.resolve();
  };

  #described(at: SheetPlace, formula: string, value: CellValue): OurFormula {
    const { written, defined, areas, any } = namedInstruments(formula, at, this.cells.names, this.functions);
    const inCells = areas.flatMap((area) =>
      this.cells
        .places(area)
        .flat()
        .flatMap((place) => this.#nameAt(place)),
    );
    const address = cellAddress(at.row, at.column);
    const place = this.cells.place({ sheet: at.sheet, address });
    // The names that it could not find show which instrument it computes.
    const missing = place && this.numbers.missingFor(place);
    return {
      sheet: at.sheet,
      address,
      formula,
      value: shownValue(value),
      instruments: distinctNames([...written, ...defined, ...inCells, ...(missing ?? [])]),
      anyInstrument: any && missing === undefined,
    };
  }

  #nameAt(place: SheetPlace): string[] {
    return nameInCell(this.cells.at(place).value);
  }

  #call(found: OurFormula): Call | undefined {
    const single = onlyCall(found.formula, this.functions);
    const place = this.cells.place(found);
    if (!single || !place) return undefined;
    const args = single.args.map((argument) =>
      this.cells.argument(argument, { ...place, sheet: found.sheet }),
    );
    return args.includes("lost")
      ? undefined
      : { name: single.name, isWhole: single.isWhole, args: args.filter((argument) => argument !== "lost") };
  }
}
