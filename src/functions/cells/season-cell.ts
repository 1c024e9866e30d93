import { apparentAttenuation, realAttenuation } from "../../core/beer/attenuation.js";
import { beerByExtracts, tellBeer } from "../../core/beer/beer.js";
import type { Listener } from "../../core/steps.js";
import { at, commonShape } from "../contract/broadcast.js";
import {
  cellContent,
  CellError,
  type CellContent,
  type Matrix,
  type Result,
} from "../contract/cell-value.js";
import { inCell, parametersOf } from "../contract/define.js";
import { readCell } from "../contract/argument.js";
import { columnOf, type FunctionSpec } from "../contract/function-spec.js";
import { scale, writeGravity } from "../arguments/gravity-argument.js";
import { HYDROMETER } from "./hydrometer-cell.js";
import { instrument } from "../arguments/instrument-argument.js";
import { namedThroughout } from "../contract/named-throughout.js";
import { needsColumns } from "../contract/messages.js";

/** Who is told of which part of a row. */
interface Listeners {
  readonly original?: Listener;
  readonly final?: Listener;
  /** What all figures of a finished batch rest on. */
  readonly figures?: Listener;
  readonly alcohol?: Listener;
  readonly apparent?: Listener;
  readonly real?: Listener;
}

/** Steps under a heading. */
const under = (heading: string, to: Listener): Listener => ({
  ...to,
  step: (found) => {
    to.step({ ...found, what: `${heading}: ${found.what}` });
  },
});

/** Of each column, what its cells rest on. */
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

/** Alcohol and attenuations of a finished batch; where they cannot be, one error in the first of the three. */
function figures(original: number, apparent: number, to: Listeners): Result[] {
  const result = inCell((): number[] => {
    const beer = beerByExtracts(original, apparent);
    tellBeer(beer, ["realExtract", "abw"], to.figures);
    tellBeer(beer, ["abv"], to.alcohol);
    return [beer.abv, apparentAttenuation(original, apparent, to.apparent), realAttenuation(beer, to.real)];
  });
  return result instanceof CellError ? [result, "", ""] : result;
}

/** Extracts all through: what HYDROMETER found as a gravity would have to be made one again for each figure. */
function batch(cells: readonly CellContent[], to: Listeners = {}): Result[] {
  const [originalReading, originalTemperature, finalReading, finalTemperature, ...others] = cells;
  const [instrument, finalInstrument, scaleCell] = others;
  const glass = finalInstrument === 0 ? instrument : (finalInstrument ?? instrument);
  const original = HYDROMETER.inPlace([originalReading, originalTemperature, instrument, "P"], to.original);
  const final = HYDROMETER.inPlace([finalReading, finalTemperature, glass, "P"], to.final);
  const written = inCell(() => readCell(named.scale, scaleCell));
  if (written instanceof CellError)
    return [original, final].some((each) => each !== "") ? [written, "", "", "", ""] : ["", "", "", "", ""];
  const asGravity = (extract: Result, listener: Listener | undefined): Result =>
    typeof extract === "number" ? writeGravity(extract, written, listener) : extract;
  const isFinished = typeof original === "number" && typeof final === "number";
  return [
    asGravity(original, to.original),
    asGravity(final, to.final),
    ...(isFinished ? figures(original, final, to) : ["", "", ""]),
  ];
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

/** A row of cells, an argument after the other. */
function lineOf(args: readonly Matrix[]): (row: number) => CellContent[] {
  const marked = args.map((matrix, i) =>
    SEASON.parameters[i]?.namesInstrument === true ? namedThroughout(named.instrument, matrix) : matrix,
  );
  return (row) => marked.map((matrix) => cellContent(at(matrix, row, 0)));
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
  calculate: (args: readonly Matrix[]): Result[][] => {
    const { rows, columns } = commonShape(args);
    if (columns !== 1) throw new CellError("#VALUE!", needsColumns);
    const line = lineOf(args);
    return Array.from({ length: rows }, (_, r) => batch(line(r)));
  },
  tell: (args, row, column, to) => batch(lineOf(args)(row), listenersFor(column, to))[column] ?? "",
};
