// A log to begin with: headings, formats and formulas, no readings.
import { heads, ONE, PERCENT, title, unlessBlank, type Content, type ExampleSheet } from "./sheet.js";

/** Batches that there is room for. */
const BATCHES = 40;
const FIRST_ROW = 5;

/** Inputs of a batch, then what they mean. A row at a time: any program shows the numbers of such formulas, and a row can go. */
const batch = (row: number): Content[] => [
  undefined,
  undefined,
  { room: "yyyy-mm-dd" },
  { room: "0.000" },
  { room: "0.0" },
  { room: "0.000" },
  { room: "0.0" },
  unlessBlank(`D${row}`, `GYLE.HYDROMETER(D${row},E${row})`),
  unlessBlank(`F${row}`, `GYLE.HYDROMETER(F${row},G${row})`),
  unlessBlank(`F${row}`, `GYLE.ABV(H${row},I${row})`, PERCENT),
  unlessBlank(`F${row}`, `GYLE.ATTENUATION.APPARENT(H${row},I${row})`, ONE),
  unlessBlank(`F${row}`, `GYLE.ATTENUATION.REAL(H${row},I${row})`, ONE),
];

export const starterSheets: readonly ExampleSheet[] = [
  {
    name: "Log",
    widths: [7, 22, 12, 9, 7, 9, 7, 10, 10, 9, 12, 12],
    frozenRows: FIRST_ROW - 1,
    rows: [
      [title("Log")],
      [`Type readings into D to G. H to L show what they mean, for ${BATCHES} batches.`],
      [],
      heads(
        "Batch",
        "Beer",
        "Brewed",
        "OG",
        "°C",
        "FG",
        "°C",
        "True OG",
        "True FG",
        "% vol",
        "Apparent att. %",
        "Real att. %",
      ),
      ...Array.from({ length: BATCHES }, (_, i) => batch(FIRST_ROW + i)),
    ],
  },
];
