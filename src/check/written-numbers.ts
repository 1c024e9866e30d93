import type { Parameter } from "../functions/contract/function-spec.js";
import type { Spotted } from "./finding.js";
import type { SeenCall, SeenCell } from "./own-calls-seen.js";

/** Arguments that are gravities or readings, on a scale where 1.046 and 1046 are the same. */
const gravities =
  /^(reading|readings|original|final|gravity|gravities|target|expected_final|hydrometer_gravity|hydrometer_gravities|true_gravities|original_readings|final_readings)$/;

/** Arguments that accept text: words, names, and times, which may be written as text. */
const takesText = ({ name, choices, namesInstrument }: Parameter): boolean =>
  choices.length > 0 || namesInstrument || name === "times" || name === "at";

/** Digits with anything that people put between and after them: "1,046", "1.046 SG", "68 °F". */
const numberLike =
  /^[+\-−]?\s*\d+(?:[.,'’\s]\d+)*\s*(?:sg|%|°?\s*[cfp]|°?\s*(?:p|bx|brix|plato)|kg|g|l|ml|hl|gal|lb)?$/i;

/** Text that looks like a number where our functions need one. */
export function numbersAsText({ args }: SeenCall): Spotted[] {
  return args
    .filter(({ parameter }) => !takesText(parameter))
    .flatMap(({ cells, parameter }) =>
      cells.flatMap(({ value, ...at }): Spotted[] =>
        typeof value === "string" && value.length < 40 && numberLike.test(value.trim())
          ? [{ kind: "text-number", at, about: parameter.name, value: `"${value}"` }]
          : [],
      ),
    );
}

/** Cells with gravities, for columns that mix both notations. */
export const gravityCells = ({ args }: SeenCall): SeenCell[] =>
  args.filter(({ parameter }) => gravities.test(parameter.name)).flatMap(({ cells }) => cells);

interface Gravity {
  readonly at: SeenCell;
  readonly value: number;
}

const isWithPoint = ({ value }: Gravity): boolean => value >= 0.9 && value <= 1.2;
const isWithoutPoint = ({ value }: Gravity): boolean => value >= 900 && value <= 1200;

/** Cells of a column written with the point, or without it, where most others are written the other way. */
export function mixedGravities(cells: readonly SeenCell[]): Spotted[] {
  const columns = new Map<string, Map<number, Gravity>>();
  for (const at of cells) {
    if (typeof at.value !== "number") continue;
    const key = `${at.sheet},${at.column}`;
    const column = columns.get(key) ?? new Map<number, Gravity>();
    columns.set(key, column);
    column.set(at.row, { at, value: at.value });
  }
  return [...columns.values()].flatMap((column) => {
    const withPoint = [...column.values()].filter(isWithPoint);
    const without = [...column.values()].filter(isWithoutPoint);
    if (withPoint.length === 0 || without.length === 0) return [];
    const [few, about] = withPoint.length < without.length ? [withPoint, "with"] : [without, "without"];
    return few.map(({ at, value }): Spotted => ({
      kind: "mixed-gravities",
      at,
      about,
      value: String(value),
    }));
  });
}
