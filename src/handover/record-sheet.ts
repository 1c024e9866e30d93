import type { CellFunctions } from "../engine/ours/cell-functions.js";
import { specNamed } from "../functions/catalogue.js";
import type { FunctionSpec } from "../functions/contract/function-spec.js";
import { calledFunctions } from "../formulas/formula-text.js";
import { factsOf, kindOf } from "../instruments/describe.js";
import { nameKey } from "../instruments/name.js";
import type { CellValue } from "../workbook/model.js";
import type { NewSheet } from "../workbook/sheet/new-sheet.js";
import type { BookToHandOver, OwnCell } from "./own-cells.js";

const WIDTHS = [30, 14, 70, 90];

const GENERAL =
  "For brewing only. Labels, duty returns and what a bottle or keg may bear are for the law, a licensed laboratory and the maker to " +
  "say. No number here says that beer is finished or safe to package.";

type Row = readonly CellValue[];

/** The sheet added to a copy: what was handed over and when, with which instruments and cautions. */
export function recordSheet(
  { functions, instruments, date }: BookToHandOver,
  cells: readonly OwnCell[],
  says: string,
): NewSheet {
  const used = new Map<string, number>();
  for (const cell of cells)
    for (const { name } of cell.instruments) used.set(nameKey(name), (used.get(nameKey(name)) ?? 0) + 1);
  const rows: Row[] = [
    ["Handed over", date],
    ...sentences("What this is", says),
    ...sentences("Caution", GENERAL),
    [],
    ["Instrument", "Cells", "What its profile says"],
    ...instruments.instruments.map((profile): Row => {
      const facts = `${kindOf(profile)}, ${factsOf(profile).join(", ")}`;
      return [profile.name, used.get(nameKey(profile.name)) ?? 0, facts];
    }),
    ...(instruments.instruments.length === 0 ? [["None: no formula names one."]] : []),
    [],
    ["Function", "Cells", "What it gives", "Caution"],
    ...[...calledBy(cells, functions)].map(([{ name, summary, caution = null }, count]): Row => [
      name,
      count,
      summary,
      caution,
    ]),
  ];
  return { name: "Hand-over", rows, widths: WIDTHS };
}

/** One sentence per row: a longer text would run out of view. */
const sentences = (title: string, text: string): Row[] =>
  text.split(/(?<=\.) /).map((sentence, i) => [i === 0 ? title : null, null, sentence]);

/** The functions that the cells call, and how many cells call each. */
function calledBy(cells: readonly OwnCell[], functions: CellFunctions): Map<FunctionSpec, number> {
  const counts = new Map<FunctionSpec, number>();
  for (const { formula } of cells)
    for (const { declared } of new Set(calledFunctions(formula.text, functions))) {
      const spec = specNamed(declared.name);
      counts.set(spec, (counts.get(spec) ?? 0) + 1);
    }
  return counts;
}
