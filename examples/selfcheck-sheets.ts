// A workbook that checks the program it is opened in: each function beside a figure from outside, and what cells, ranges and
// errors come to around our functions.
import { catalogue } from "../src/functions/catalogue.js";
import { evaluate } from "../src/functions/evaluate.js";
import { sampleInstruments } from "../src/help/sample-book.js";
import { workedExamples } from "../tests/e2e/worked-examples.js";
import { GRAVITY, heads, native, ours, title, type Content, type ExampleSheet } from "./sheet.js";

/** What one line checks. */
interface Check {
  readonly what: string;
  readonly formula: string;
  readonly wanted: number | string | boolean;
  /** By how much the figure from outside may be off: the accuracy of its source. */
  readonly within: number;
  /** What the functions themselves come to, calculated outside of any spreadsheet: must agree to a millionth. */
  readonly calculated?: number;
}

const FIRST = 7;

/** An argument as a formula has it; a list as an array. */
function written(value: unknown): string {
  if (Array.isArray(value)) return `{${value.map((row: unknown[]) => row.map(written).join(",")).join(";")}}`;
  if (typeof value === "string") return `"${value}"`;
  if (typeof value === "number") return String(value);
  return "";
}

/** Every function once, by each of its cells. */
const functionChecks: readonly Check[] = catalogue.flatMap(({ name }): Check[] => {
  const example = workedExamples[name];
  if (!example) throw new Error(`${name} has no worked example.`);
  const { args, gives, within, rows = 1 } = example;
  const call = `GYLE.${name}(${args.map(written).join(",")})`;
  const cells = evaluate(name, args, sampleInstruments).flat();
  const columns = gives.length / rows;
  return gives.map((wanted, i) => {
    const [row, column] = [Math.floor(i / columns) + 1, (i % columns) + 1];
    const calculated = cells[i];
    return {
      what: gives.length === 1 ? name : `${name}, row ${row}, column ${column}`,
      formula: gives.length === 1 ? call : `INDEX(${call},${row},${column})`,
      wanted,
      within: within[i] ?? 0,
      ...(typeof calculated === "number" ? { calculated } : {}),
    };
  });
});

const holds = (what: string, formula: string): Check => ({ what, formula, wanted: true, within: 0 });

const cellChecks: readonly Check[] = [
  holds("a blank cell gives a blank", 'GYLE.HYDROMETER(Cells!G9,20)=""'),
  holds('"" gives a blank', 'GYLE.ABV("",1.012)=""'),
  holds(
    "an argument may be left out",
    'ABS(GYLE.HYDROMETER(1.05,20,,"P")-GYLE.CONVERT(1.05,"SG","P"))<0.000001',
  ),
  holds("text is no number", 'ERROR.TYPE(GYLE.ABV("1.048",1.012))=3'),
  holds("TRUE is no number", "ISERROR(GYLE.ABV(TRUE,1.012))"),
  holds("#N/A stays #N/A", "ISNA(GYLE.ABV(NA(),1.012))"),
  holds("#DIV/0! stays #DIV/0!", "ERROR.TYPE(GYLE.ABV(1/0,1.012))=2"),
  holds("an error in a list stays in its place", "ISNA(INDEX(GYLE.ABV({1.048;#N/A;1.05},1.012),2,1))"),
  holds("and the cells beside it have numbers", "ISNUMBER(INDEX(GYLE.ABV({1.048;#N/A;1.05},1.012),3,1))"),
  holds("one formula fills five cells: a number", "ISNUMBER(Cells!C2)"),
  holds("an error among them", "ERROR.TYPE(Cells!C3)=3"),
  holds("a blank among them", 'Cells!C4=""'),
  holds("and a number at their end", "ISNUMBER(Cells!C6)"),
  holds(
    "a spilled range is an argument",
    "ABS(SUM(GYLE.ABV(_xlfn.ANCHORARRAY(Cells!E2),1.012))-GYLE.ABV(1.048,1.012)-GYLE.ABV(1.05,1.012))<0.000001",
  ),
  holds(
    "dates are times of a log",
    "ABS(GYLE.FERMENT.REACHES(Cells!G2:G6,Cells!H2:H6,1.025)-46084.5)<0.000001",
  ),
  holds(
    "LET around ours",
    "_xlfn.LET(_xlpm.x,GYLE.ABV(1.048,1.012),ABS(_xlpm.x-GYLE.ABV(1.048,1.012))<0.000001)",
  ),
  holds(
    "MAP around ours",
    "ABS(SUM(_xlfn.MAP({1.048;1.05},_xlfn.LAMBDA(_xlpm.g,GYLE.ABV(_xlpm.g,1.012))))-GYLE.ABV(1.048,1.012)-GYLE.ABV(1.05,1.012))<0.000001",
  ),
  holds("an instrument of this workbook is found", 'ABS(GYLE.FLOATING(1.01,"Bobber")-1.012)<0.000001'),
  holds("one that it does not have is an error", 'ISERROR(GYLE.HYDROMETER(1.05,20,"No such glass"))'),
];

/** An answer that is not there yet is none, and neither passes nor fails. */
function verdict(row: number, { wanted, calculated }: Check): string {
  const [answer, outside] = [`B${row}`, `C${row}`];
  const near = `ABS(${answer}-${outside})<=D${row}`;
  const same = `ABS(${answer}-E${row})<=0.000001*MAX(1,ABS(E${row}))`;
  const right =
    typeof wanted !== "number"
      ? `${answer}=${outside}`
      : calculated === undefined
        ? near
        : `IF(${near},${same},FALSE)`;
  return `IF(ISERROR(${answer}),"FAIL",IF(${answer}="","not calculated",IF(${right},"PASS","FAIL")))`;
}

function line(check: Check, i: number): Content[] {
  const row = FIRST + i;
  const { what, formula, wanted, within, calculated } = check;
  return [
    what,
    ours(formula, "General"),
    typeof wanted === "boolean" ? native(wanted ? "TRUE" : "FALSE", "General") : wanted,
    typeof wanted === "number" ? within : undefined,
    calculated,
    native(verdict(row, check), "General"),
  ];
}

const checks = [...functionChecks, ...cellChecks];
const verdicts = `F${FIRST}:F${FIRST + checks.length - 1}`;
const count = (word: string): string => `COUNTIF(${verdicts},"${word}")`;

const checkSheet: ExampleSheet = {
  name: "Check",
  widths: [44, 16, 16, 12, 16, 16],
  frozenRows: FIRST - 1,
  rows: [
    [title("Does this program calculate Gylesheet's functions right?")],
    [
      undefined,
      native(
        `IF(${count("FAIL")}>0,"FAIL: "&${count("FAIL")}&" of ${checks.length}",IF(${count("PASS")}=${checks.length},"PASS: all ${checks.length}","PASS: "&${count("PASS")}&" of ${checks.length}; the rest is not calculated here"))`,
        "General",
      ),
    ],
    [
      "Everything here is made up but for the figures in column C, which come from printed tables, definitions or other code.",
    ],
    [
      "Column E is what the functions come to outside of any spreadsheet. An answer must be as near to C as D says, and to E within a millionth.",
    ],
    [],
    heads("What is checked", "This program", "From outside", "Within", "Functions alone", "Verdict"),
    ...checks.map(line),
  ],
};

const day = (date: number): Content => ({
  value: new Date(Date.UTC(2026, 2, date)),
  format: "yyyy-mm-dd",
});

/** What the second block of checks looks at. */
const cellsSheet: ExampleSheet = {
  name: "Cells",
  widths: [12, 12, 16, 4, 16, 4, 12, 12],
  rows: [
    heads("Reading", "°C", "True gravity", "", "Spilled", "", "Time", "Gravity"),
    [
      1.046,
      27,
      { ours: "GYLE.HYDROMETER(A2:A6,B2:B6)", format: GRAVITY, spills: [5, 1] },
      undefined,
      { ours: "GYLE.HYDROMETER({1.048;1.05},20)", format: GRAVITY, spills: [2, 1] },
      undefined,
      day(1),
      1.05,
    ],
    [1.05, "warm", { room: GRAVITY }, undefined, { room: GRAVITY }, undefined, day(2), 1.048],
    [undefined, 20, { room: GRAVITY }, undefined, undefined, undefined, day(3), 1.032],
    [1.052, 25, { room: GRAVITY }, undefined, undefined, undefined, day(4), 1.018],
    [1.06, 20, { room: GRAVITY }, undefined, undefined, undefined, day(5), 1.012],
  ],
};

export const selfcheckSheets: readonly ExampleSheet[] = [checkSheet, cellsSheet];
