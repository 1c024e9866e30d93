import { apparentAttenuation, realAttenuation } from "../core/attenuation.js";
import { beerByExtracts } from "../core/beer.js";
import { extractOfGravity } from "../core/gravity.js";
import { at, commonShape } from "./broadcast.js";
import { cellContent, CellError, type CellContent, type Matrix, type Result } from "./cell-value.js";
import { inCell } from "./define.js";
import type { FunctionSpec, Parameter } from "./function-spec.js";
import { HYDROMETER } from "./hydrometer-cell.js";
import { needsColumns } from "./messages.js";

/** A finished batch; where its figures cannot be, one error in the first of the three. */
function figures(original: number, final: number): Result[] {
  const result = inCell((): number[] => {
    const [oe, ae] = [extractOfGravity(original), extractOfGravity(final)];
    const beer = beerByExtracts(oe, ae);
    return [original, final, beer.abv, apparentAttenuation(oe, ae), realAttenuation(beer)];
  });
  return result instanceof CellError ? [original, final, result, "", ""] : result;
}

function batch(cells: readonly CellContent[]): Result[] {
  const [originalReading, originalTemperature, finalReading, finalTemperature, instrument, finalInstrument] =
    cells;
  const original = HYDROMETER.inPlace([originalReading, originalTemperature, instrument]);
  const final = HYDROMETER.inPlace([finalReading, finalTemperature, finalInstrument ?? instrument]);
  if (typeof original === "number" && typeof final === "number") return figures(original, final);
  return [original, final, "", "", ""];
}

const column = (name: string, description: string): Parameter => ({
  name,
  description,
  optional: false,
  namesInstrument: false,
  instrumentKind: undefined,
  choices: [],
});

const hydrometer = (name: string, description: string): Parameter => ({
  name,
  description,
  optional: true,
  namesInstrument: true,
  instrumentKind: "hydrometer",
  choices: [],
});

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
    "Five columns: original gravity, final gravity (SG 20/20), % vol, apparent and real attenuation (%).",
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
    column("original_readings", reading("Original")),
    column("original_temperatures", temperature("original")),
    column("final_readings", reading("Final")),
    column("final_temperatures", temperature("final")),
    hydrometer(
      "instrument",
      "Hydrometer of this workbook, one for all or one a row. If omitted, an SG scale true at 20 °C.",
    ),
    hydrometer(
      "final_instrument",
      "Hydrometer of the final readings, such as the finishing one of a pair. If omitted, the same.",
    ),
  ],
  calculate: (args: readonly Matrix[]): Result[][] => {
    const { rows, columns } = commonShape(args);
    if (columns !== 1) throw new CellError("#VALUE!", needsColumns);
    return Array.from({ length: rows }, (_, r) => batch(args.map((matrix) => cellContent(at(matrix, r, 0)))));
  },
};
