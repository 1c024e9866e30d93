import { apparentAttenuation, realAttenuation } from "../../core/beer/attenuation.js";
import { beerByExtracts, tellBeer } from "../../core/beer/beer.js";
import type { Listener } from "../../core/steps.js";
import { at, commonShape } from "../contract/broadcast.js";
import {
  cellContent,
  CellError,
  type CellContent,
  type RawCells,
  type Result,
} from "../contract/cell-value.js";
import { asCellError, inCell, parametersOf } from "../contract/define.js";
import { readCell } from "../contract/argument.js";
import { columnOf, type FunctionSpec } from "../contract/function-spec.js";
import { scale, writeGravity } from "../arguments/gravity-argument.js";
import { extractInPlace } from "./hydrometer-cell.js";
import { instrument } from "../arguments/instrument-argument.js";
import { namedThroughout } from "../contract/named-throughout.js";
import { needsColumns } from "../contract/messages.js";

/** Listeners for the parts of a row. */
interface Listeners {
  readonly original?: Listener;
  readonly final?: Listener;
  /** What all figures of a finished batch are based on. */
  readonly figures?: Listener;
  readonly alcohol?: Listener;
  readonly apparent?: Listener;
  readonly real?: Listener;
}

/** Puts steps under a heading. */
const under = (heading: string, to: Listener): Listener => ({
  ...to,
  step: (found) => {
    to.step({ ...found, what: `${heading}: ${found.what}` });
  },
});

/** Listeners for the parts that a column depends on. */
function listenersFor(column: number, to: Listener): Listeners {
  const both = { original: under("original", to), final: under("final", to) };
  const columns: Listeners[] = [
    { original: to },
    { final: to },
    { ...both, figures: to, alcohol: to },
    { ...both, figures: to, apparent: to },
    { ...both, figures: to, real: to },
  ];
  return columns[column] ?? {};
}

/** A row of the season as read from the cells. */
interface Batch {
  readonly originalReading: CellContent;
  readonly originalTemperature: CellContent;
  readonly finalReading: CellContent;
  readonly finalTemperature: CellContent;
  readonly instrument: CellContent;
  readonly finalInstrument: CellContent;
  readonly scale: CellContent;
}

/** Works with extracts throughout; a gravity would have to be converted back for each figure. */
function figuresOf(cells: Batch, to: Listeners = {}): Result[] {
  const { instrument, finalInstrument } = cells;
  const glass = finalInstrument === 0 ? instrument : (finalInstrument ?? instrument);
  const original = extractInPlace(cells.originalReading, cells.originalTemperature, instrument, to.original);
  const final = extractInPlace(cells.finalReading, cells.finalTemperature, glass, to.final);
  const written = inCell(() => readCell(named.scale, cells.scale));
  if (written instanceof CellError) return [original === "" && final === "" ? "" : written, "", "", "", ""];
  const og = typeof original === "number" ? writeGravity(original, written, to.original) : original;
  const fg = typeof final === "number" ? writeGravity(final, written, to.final) : final;
  if (typeof original !== "number" || typeof final !== "number") return [og, fg, "", "", ""];
  try {
    const beer = beerByExtracts(original, final);
    tellBeer(beer, ["realExtract", "abw"], to.figures);
    tellBeer(beer, ["abv"], to.alcohol);
    const apparent = apparentAttenuation(original, final, to.apparent);
    return [og, fg, beer.abv, apparent, realAttenuation(beer, to.real)];
  } catch (error) {
    return [og, fg, asCellError(error), "", ""];
  }
}

const named = {
  instrument: instrument(
    "hydrometer",
    "Hydrometer of this workbook, one for all or one a row. If omitted, an SG scale true at 20 °C.",
  ),
  final_instrument: instrument(
    "hydrometer",
    "Hydrometer of the final readings, such as the finishing one of a pair. If omitted, the same.",
  ),
  scale: scale("How the true gravities are written"),
};

/** The cells of a column by row; a single cell is repeated for all rows. */
function cellsOf(column: RawCells): (row: number) => CellContent {
  if (column.length !== 1) return (row) => cellContent(at(column, row, 0));
  const content = cellContent(at(column, 0, 0));
  return () => content;
}

/** The batches of a season by row. */
function batchesOf(args: readonly RawCells[]): (row: number) => Batch {
  const given = (place: number): RawCells => args[place] ?? [[undefined]];
  const glass = (place: number): RawCells => namedThroughout(named.instrument, given(place));
  const originalReading = cellsOf(given(0));
  const originalTemperature = cellsOf(given(1));
  const finalReading = cellsOf(given(2));
  const finalTemperature = cellsOf(given(3));
  const instrument = cellsOf(glass(4));
  const finalInstrument = cellsOf(glass(5));
  const scale = cellsOf(given(6));
  return (row) => ({
    originalReading: originalReading(row),
    originalTemperature: originalTemperature(row),
    finalReading: finalReading(row),
    finalTemperature: finalTemperature(row),
    instrument: instrument(row),
    finalInstrument: finalInstrument(row),
    scale: scale(row),
  });
}

const reading = (which: string): string =>
  `${which} readings, one batch a row: SG (1.046 or 1046), or in the units of the instrument.`;
const temperature = (which: string): string =>
  `Sample temperatures of the ${which} readings, °C or in the unit of the instrument.`;

export const SEASON: FunctionSpec = {
  name: "SEASON",
  topic: "Alcohol and attenuation",
  question: "What did every batch of the season come to?",
  summary:
    "One formula for a season: true original and final gravity, alcohol and attenuation, a batch a row.",
  returns:
    'Five columns: original gravity, final gravity (SG 20/20, or °P if scale is "P"), % vol, apparent and real attenuation (%).',
  examples: [
    {
      formula: 'GYLE.SEASON(D4:D41,E4:E41,G4:G41,H4:H41,"Starting glass","Finishing glass")',
      says: "Fills five columns. Unfinished batches show what there is; a bad cell gives one error in its place.",
    },
  ],
  method: "As HYDROMETER, ABV (Balling), ATTENUATION.APPARENT and ATTENUATION.REAL do, row by row.",
  caution:
    "Not for a label or a duty return as it stands: there the law of your country and a licensed laboratory decide. " +
    "Hot wort scalds: cool the sample before it goes into glass.",
  parameters: [
    columnOf("original_readings", reading("Original")),
    columnOf("original_temperatures", temperature("original")),
    columnOf("final_readings", reading("Final")),
    columnOf("final_temperatures", temperature("final")),
    ...parametersOf(named),
  ],
  goesBy: "row",
  calculate: (args: readonly RawCells[]): Result[][] => {
    const { rows, columns } = commonShape(args);
    if (columns !== 1) throw new CellError("#VALUE!", needsColumns);
    const batch = batchesOf(args);
    const results: Result[][] = [];
    for (let row = 0; row < rows; row++) results.push(figuresOf(batch(row)));
    return results;
  },
  tell: (args, row, column, to) => figuresOf(batchesOf(args)(row), listenersFor(column, to))[column] ?? "",
};
