// Which cells can be reached from others by the references that formulas hold, read without our own engine.
import { parseA1Ref, parseStructRef, tokenize, tokenTypes } from "@borgar/fx/xlsx";
import type { WorkbookModel } from "../../src/workbook/model.js";

interface Reads {
  readonly sheet: number;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

const volatile = /\b(?:NOW|TODAY|RAND|RANDBETWEEN|RANDARRAY)\s*\(/i;

const key = ({ sheet, row, column }: Place): string => `${sheet},${row},${column}`;

/** Formulas that change by themselves. */
export const volatileIn = ({ sheets }: WorkbookModel): Place[] =>
  sheets.flatMap(({ cells }, sheet) =>
    cells.flatMap(({ row, column, formula }) =>
      formula && volatile.test(formula.text) ? [{ sheet, row, column }] : [],
    ),
  );

/**
 * Places that are reached from some, these included.
 * INDIRECT and OFFSET count for what they name, not for what they lead to.
 */
export function reachedFrom(model: WorkbookModel, from: readonly Place[]): ReadonlySet<string> {
  const sheets = new Map(model.sheets.map(({ name }, i) => [name.toLowerCase(), i]));
  const names = new Map(model.names.map(({ name, refersTo }) => [name.toLowerCase(), refersTo]));
  const tables = new Map(model.tables.map((table) => [table.name.toLowerCase(), table]));
  const formulas = model.sheets.flatMap(({ cells }, sheet) =>
    cells.flatMap(({ row, column, formula }) =>
      formula
        ? [
            {
              area: { sheet, ...(formula.area ?? { top: row, left: column, bottom: row, right: column }) },
              reads: readsOf(formula.text, sheet, 0),
            },
          ]
        : [],
    ),
  );

  function readsOf(text: string, sheet: number, depth: number): Reads[] {
    if (depth > 8) return [];
    return tokenize(text, { withLocation: false, mergeRefs: true }).flatMap(({ type, value }): Reads[] => {
      if (type === tokenTypes.REF_NAMED)
        return readsOf(names.get(value.replace(/^.*!/, "").toLowerCase()) ?? "", sheet, depth + 1);
      if (type === tokenTypes.REF_STRUCT) {
        const table = tables.get((parseStructRef(value)?.table ?? "").toLowerCase());
        const own = table ?? model.tables.find((each) => sheets.get(each.sheet.toLowerCase()) === sheet);
        return own ? [{ sheet: sheets.get(own.sheet.toLowerCase()) ?? -1, ...own.area }] : [];
      }
      const parsed = type.startsWith("range") ? parseA1Ref(value) : undefined;
      if (!parsed) return [];
      if (!("range" in parsed)) return readsOf(names.get(parsed.name.toLowerCase()) ?? "", sheet, depth + 1);
      const { range } = parsed;
      if (parsed.workbookName) return [];
      const at = parsed.sheetName ? (sheets.get(parsed.sheetName.toLowerCase()) ?? -1) : sheet;
      const { top, left, bottom, right } = range;
      return [
        { sheet: at, top: top ?? 0, left: left ?? 0, bottom: bottom ?? 1_048_575, right: right ?? 16_383 },
      ];
    });
  }

  const reached = new Set<string>();
  const waiting: Reads[] = [];
  const reach = (area: Reads): void => {
    waiting.push(area);
    for (let row = area.top; row <= area.bottom; row++)
      for (let column = area.left; column <= area.right; column++)
        reached.add(key({ sheet: area.sheet, row, column }));
  };
  for (const { sheet, row, column } of from)
    reach({ sheet, top: row, left: column, bottom: row, right: column });
  const left = new Set(formulas);
  for (let area = waiting.pop(); area; area = waiting.pop())
    for (const each of left)
      if (each.reads.some((read) => overlap(read, area))) {
        left.delete(each);
        reach(each.area);
      }
  return reached;
}

const overlap = (a: Reads, b: Reads): boolean =>
  a.sheet === b.sheet && a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;

export const isReached = (reached: ReadonlySet<string>, place: Place): boolean => reached.has(key(place));
