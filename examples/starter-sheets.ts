// A log to begin with: headings, formats and one formula, no readings.
import { heads, title, type Content, type ExampleSheet } from "./sheet.js";

/** Batches that there is room for. */
const BATCHES = 40;
const FIRST_ROW = 5;
const last = FIRST_ROW + BATCHES - 1;

const range = (column: string): string => `${column}${FIRST_ROW}:${column}${last}`;
const season = `GYLE.SEASON(${["D", "E", "F", "G"].map(range).join(",")})`;

/** Inputs of a batch, then the columns that the formula of the first row fills. */
const room = (first: boolean): Content[] => [
  undefined,
  undefined,
  { room: "yyyy-mm-dd" },
  { room: "0.000" },
  { room: "0.0" },
  { room: "0.000" },
  { room: "0.0" },
  first ? { ours: season, format: "0.0000", spills: [BATCHES, 5] } : { room: "0.0000" },
  { room: "0.0000" },
  { room: "0.00" },
  { room: "0.0" },
  { room: "0.0" },
];

export const starterSheets: readonly ExampleSheet[] = [
  {
    name: "Log",
    widths: [7, 22, 12, 9, 7, 9, 7, 10, 10, 9, 12, 12],
    frozenRows: FIRST_ROW - 1,
    rows: [
      [title("Log")],
      [`Type readings into D to G. One formula in H${FIRST_ROW} fills H to L for ${BATCHES} batches.`],
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
      ...Array.from({ length: BATCHES }, (_, batch) => room(batch === 0)),
    ],
  },
];
