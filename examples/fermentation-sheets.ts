// A fermentation and what can be asked of its log. The brewery, the beer and the log are made up.
import { fermentationLog } from "./fermentation-log.js";
import { GRAVITY, heads, ONE, ours, title, type Content, type ExampleSheet, type Ours } from "./sheet.js";

const TIME = "yyyy-mm-dd hh:mm";

const log = fermentationLog();
const FIRST = 4;
const LAST = FIRST + log.length - 1;

/** Times and gravities of the log, as arguments; all of it, or up to a row. */
const upTo = (row: number): string => `Log!$A$${FIRST}:$A$${row},Log!$B$${FIRST}:$B$${row}`;
const whole = upTo(LAST);

/** The row of the log so many days after its beginning. */
function rowAfter(days: number): number {
  const until = (log[0]?.time.getTime() ?? NaN) + days * 86_400_000;
  return FIRST + log.findLastIndex(({ time }) => time.getTime() <= until);
}

const spill = (formula: string, spills: readonly [number, number], format: string): Ours => ({
  ...ours(formula, format),
  spills,
});

/** What the log said at a time when it was shorter. */
function asOf(days: number): Content[] {
  const row = rowAfter(days);
  const part = upTo(row);
  return [
    { value: log[row - FIRST]?.time ?? "", format: TIME },
    ours(`GYLE.FERMENT.RATE(${part})`, ONE),
    ours(`IFERROR(GYLE.FERMENT.REACHES(${part},B11),"cannot say yet")`, TIME),
    ours(`GYLE.FERMENT.STEADY(${part})`, "General"),
  ];
}

const readMe: ExampleSheet = {
  name: "Read me",
  widths: [110],
  rows: [
    [title("A fermentation at Quillback Lane Brewery (invented)")],
    ["Everything in this workbook is made up: the brewery, the beer and the log of a floating hydrometer."],
    [
      "Formulas that begin with GYLE. are Gylesheet's. Without the add-in they keep the values that were calculated last.",
    ],
    [],
    [
      "Log: a reading every 15 minutes, with foam, a float that leans on dry hops, and a silent day; and what it means.",
    ],
    [
      "Story: when it started, was fastest, slowed and stood still, what it said on the way, and when it came to a gravity.",
    ],
    [],
    [
      "Nothing here says that a beer is safe to bottle: what stands still may be stuck. Take final values with glass.",
    ],
  ],
};

const logSheet: ExampleSheet = {
  name: "Log",
  widths: [18, 12, 10, 14],
  frozenRows: FIRST - 1,
  rows: [
    [title("Batch 211, a pale ale (invented)")],
    ["Column D is one formula. What foam and hops did to the float is not in it."],
    heads("Time", "As logged", "°C", "Gravity"),
    ...log.map(({ time, gravity, celsius }, i): Content[] => [
      { value: time, format: TIME },
      { value: gravity, format: GRAVITY },
      { value: celsius, format: ONE },
      i === 0
        ? spill(`GYLE.FERMENT.SMOOTH(${whole.replaceAll("Log!", "")})`, [log.length, 1], GRAVITY)
        : { value: 0, format: GRAVITY },
    ]),
  ],
};

/** Cells that a spill fills, with their formats. */
const stageRows = Array.from({ length: 4 }, (_, i): Content[] => [
  i === 0 ? spill(`GYLE.FERMENT.STAGES(${whole})`, [4, 3], "General") : { value: "" },
  { value: 0, format: TIME },
  { value: 0, format: GRAVITY },
]);

const story: ExampleSheet = {
  name: "Story",
  widths: [34, 20, 20, 22, 12],
  rows: [
    [title("Batch 211, a pale ale (invented)")],
    [],
    heads("Stage", "From", "Gravity"),
    ...stageRows,
    [],
    heads("When it came to a gravity", "Gravity", "Time"),
    [
      "Warmer, for the rest",
      { value: 1.022, format: GRAVITY },
      ours(`GYLE.FERMENT.REACHES(${whole},B10)`, TIME),
    ],
    ["Dry hops", { value: 1.016, format: GRAVITY }, ours(`GYLE.FERMENT.REACHES(${whole},B11)`, TIME)],
    [],
    heads("What the log said on the way", "Last reading", "Points per day", "1.016 at", "Steady"),
    ...[1, 2.5, 3.5, 3.75, 5, 7.5, 9.5, 15].map((days): Content[] => [
      `After ${days} ${days === 1 ? "day" : "days"}`,
      ...asOf(days),
    ]),
    [],
    ["Steady means: no more than 0.001 SG in three days. It is no word on bottling."],
    ["Half a point in four days", ours(`GYLE.FERMENT.STEADY(${whole},4,0.0005)`, "General")],
  ],
};

export const fermentationSheets: readonly ExampleSheet[] = [readMe, story, logSheet];
