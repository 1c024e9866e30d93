import type { CellValue } from "../workbook/model.js";
import { ownCells, type BookToHandOver } from "./own-cells.js";
import { reportOf, type HandedOver } from "./values.js";

type Row = readonly CellValue[];

/** Advice for someone who opens the workbook without the add-in. One point per row. */
const page = (date: string): Row[] => [
  ["This workbook calculates with Gylesheet, a spreadsheet add-in for brewers."],
  [`Handed over ${date}. Its instruments travel inside this workbook.`],
  [],
  ["Without the add-in"],
  [
    "Cells show the values they were saved with, until the spreadsheet program calculates them again; then they show #NAME?.",
  ],
  ["The formulas are still right then. Get the add-in and calculate again, rather than typing them anew."],
  [
    "If you only want to read the numbers, or cannot have the add-in, ask the sender for a copy with values, or for one that is live without it.",
  ],
  [],
  ["Getting the add-in"],
  ["1. Ask the sender for the manifest.xml of their Gylesheet: formulas mean the same by any copy of it."],
  [
    "2. Excel on the web: Home > Add-ins > More Add-ins > My Add-ins > Upload My Add-in, and choose manifest.xml.",
  ],
  [
    "    Excel on Windows: a shared folder that holds manifest.xml as trusted catalogue, then Home > Add-ins > More Add-ins > Shared Folder.",
  ],
  [
    "    Excel on Mac: manifest.xml in ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef, then restart Excel and look under Home > Add-ins.",
  ],
  ["3. Open this workbook again and calculate it (Ctrl+Alt+F9)."],
  [
    "Excel on iPad and volume-licensed Excel 2021 or older cannot run it. Without Excel, the sender's desk opens this file in a web browser.",
  ],
];

/** The workbook with its formulas, and a sheet about getting the add-in. */
export function asItIs(given: BookToHandOver): HandedOver {
  const { result, date } = given;
  const sheets = [{ name: "Getting the add-in", rows: page(date), widths: [130] }];
  return { changes: result.changes, notes: [], sheets, report: reportOf(ownCells(given), []) };
}
