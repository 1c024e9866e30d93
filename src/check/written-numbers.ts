import type { Spotted } from "./finding.js";
import type { SeenCall, SeenCell } from "./own-calls-seen.js";

/** Arguments that are gravities or readings of one, on a scale where 1.046 and 1046 are the same. */
const gravities =
  /^(reading|readings|original|final|gravity|gravities|target|expected_final|hydrometer_gravity|hydrometer_gravities|true_gravities|original_readings|final_readings)$/;

/** Arguments in which text has its place. */
const texts = /^(times|at|property|name|from|to|kind|method|scale|unit|volume_unit|mass_unit|yield_unit)$/;

/** Digits with whatever people put between and behind them: "1,046", "1.046 SG", "68 °F". */
const numberLike =
  /^[+\-−]?\s*\d+(?:[.,'’\s]\d+)*\s*(?:sg|%|°?\s*[cfp]|°?\s*(?:p|bx|brix|plato)|kg|g|l|ml|hl|gal|lb)?$/i;

/** Text that looks like a number where our functions want one. */
export function numbersAsText({ args }: SeenCall): Spotted[] {
  return args
    .filter(({ parameter }) => !parameter.namesInstrument && !texts.test(parameter.name))
    .flatMap(({ cells, parameter }) =>
      cells.flatMap(({ value, ...at }): Spotted[] =>
        typeof value === "string" && value.length < 40 && numberLike.test(value.trim())
          ? [{ kind: "text-number", at, about: parameter.name, value: `"${value}"` }]
          : [],
      ),
    );
}

/** Cells with gravities, for the columns that mix both ways of writing them. */
export const gravityCells = ({ args }: SeenCall): SeenCell[] =>
  args.filter(({ parameter }) => gravities.test(parameter.name)).flatMap(({ cells }) => cells);

const isWithPoint = (value: number): boolean => value >= 0.9 && value <= 1.2;
const isWithoutPoint = (value: number): boolean => value >= 900 && value <= 1200;

/** Cells of a column that are written without the point where others have it. */
export function mixedGravities(cells: readonly SeenCell[]): Spotted[] {
  const columns = new Map<string, SeenCell[]>();
  for (const cell of cells) {
    const key = `${cell.sheet},${cell.column}`;
    const column = columns.get(key) ?? [];
    columns.set(key, column);
    column.push(cell);
  }
  return [...columns.values()].flatMap((column) => {
    const numbers = column.flatMap(({ value, ...at }) => (typeof value === "number" ? [{ value, at }] : []));
    if (!numbers.some(({ value }) => isWithPoint(value))) return [];
    return numbers
      .filter(({ value }) => isWithoutPoint(value))
      .map(({ value, at }): Spotted => ({ kind: "mixed-gravities", at, about: "", value: String(value) }));
  });
}
