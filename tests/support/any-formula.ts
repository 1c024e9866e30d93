// Formulas as people type them, and as a file must have them: put together from pieces whose two spellings are both known.
import { toCol } from "@borgar/fx";
import fc from "fast-check";

/** A formula without "=". */
export interface AnyFormula {
  readonly typed: string;
  /** In a file, so many rows further down. */
  readonly stored: (down: number) => string;
}

const same = (text: string): AnyFormula => ({ typed: text, stored: () => text });
const as = (typed: string, stored: string): AnyFormula => ({ typed, stored: () => stored });

/** @param parts texts that are the same in both, and pieces */
function joined(...parts: (string | AnyFormula)[]): AnyFormula {
  const pieces = parts.map((part) => (typeof part === "string" ? same(part) : part));
  return {
    typed: pieces.map(({ typed }) => typed).join(""),
    stored: (down) => pieces.map(({ stored }) => stored(down)).join(""),
  };
}

const number = fc
  .oneof(
    fc.constantFrom("1.050", ".5", "0.50", "1e3", "1.50E-02", "5%", "10%%", "007", "1.", "0.0", "1E+2", "00.10", "2"),
    fc.tuple(fc.integer({ min: 0, max: 2000 }), fc.constantFrom("", ".0", ".00", ".50", ".046", "E2", "%", ".10%")).map(([n, end]) => `${n}${end}`),
  )
  .map(same); // prettier-ignore

const text = fc
  .array(fc.constantFrom("a", "SG", "1.50", '""', "'", " ", ",", "(", ")", "{1,2}", "A1", "=", "é", ";", "1,046", "<&>", "01.05.2026"), { maxLength: 4 })
  .map((parts) => same(`"${parts.join("")}"`)); // prettier-ignore

const sheet = fc.constantFrom("", "", "", "Log!", "'Brew day'!", "'It''s'!");
const place = fc.record({
  column: fc.integer({ min: 0, max: 2 }),
  row: fc.integer({ min: 0, max: 8 }),
  fixedColumn: fc.boolean(),
  fixedRow: fc.boolean(),
  isLower: fc.boolean(),
});
const cell = place.map(({ column, row, fixedColumn, fixedRow, isLower }): AnyFormula => {
  const letters = toCol(column);
  const address = (down: number, spelled: string): string =>
    `${fixedColumn ? "$" : ""}${spelled}${fixedRow ? "$" : ""}${row + 1 + (fixedRow ? 0 : down)}`;
  return {
    typed: address(0, isLower ? letters.toLowerCase() : letters),
    stored: (down) => address(down, letters),
  };
});
const range = fc.tuple(cell, fc.integer({ min: 1, max: 4 })).map(([from, rows]): AnyFormula => {
  // The other corner as its own piece: straight below the first, with the same signs.
  const below = (address: string): string => address.replace(/\d+$/, (row) => String(Number(row) + rows));
  return {
    typed: `${from.typed}:${below(from.typed)}`,
    stored: (down) => `${from.stored(down)}:${below(from.stored(down))}`,
  };
});
const reference = fc
  .tuple(sheet, fc.oneof({ weight: 3, arbitrary: cell }, { weight: 1, arbitrary: range }))
  .map(([before, at]) => joined(before, at));

const array = fc
  .constantFrom("{1,2;3,4}", '{"a,b",1.50;"c""d",.5}', "{1.0;2.50}", "{TRUE,#N/A}", "{-1.50,1e3}")
  .map(same);
const constant = fc.constantFrom(as("true", "TRUE"), as("False", "FALSE"), same("#N/A"), same("#DIV/0!"));

const functions = [
  ["sum", "SUM"],
  ["Max", "MAX"],
  ["TEXT", "TEXT"],
  ["concat", "_xlfn.CONCAT"],
  ["ifs", "_xlfn.IFS"],
  ["LEN", "LEN"],
  ["gyle.abv", "_xldudf_GYLE_ABV"],
  ["GYLE.Hydrometer", "_xldudf_GYLE_HYDROMETER"],
  ["GYLE.CONVERT", "_xldudf_GYLE_CONVERT"],
].map(([typed = "", stored = ""]) => as(typed, stored));
const comma = fc.constantFrom(",", ", ", " ,");
const operator = fc.constantFrom("+", "-", "*", "/", "^", "&", "=", "<>", ">=", "<", " & ", " + ", ">");

const { formula } = fc.letrec<{ formula: AnyFormula; call: AnyFormula; sum: AnyFormula }>((tie) => ({
  formula: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    { weight: 3, arbitrary: number },
    { weight: 3, arbitrary: text },
    { weight: 3, arbitrary: reference },
    { weight: 1, arbitrary: array },
    { weight: 1, arbitrary: constant },
    { weight: 4, arbitrary: tie("call") },
    { weight: 4, arbitrary: tie("sum") },
  ),
  call: fc.oneof(
    fc
      .tuple(tie("formula"), comma, tie("formula"), comma, tie("formula"))
      .map(([a, x, b, y, c]) => joined("IF(", a, x, b, y, c, ")")),
    fc
      .tuple(fc.constantFrom(...functions), fc.array(tie("formula"), { minLength: 1, maxLength: 3 }), comma)
      .map(([name, args, mark]) => joined(name, "(", ...args.flatMap((arg, i) => (i > 0 ? [mark, arg] : [arg])), ")")),
  ),
  sum: fc.oneof(
    fc.tuple(tie("formula"), operator, tie("formula")).map(([a, sign, b]) => joined(a, sign, b)),
    fc.tuple(fc.constantFrom("-", "+", "(", "( "), tie("formula")).map(([sign, a]) => joined(sign, a, sign.startsWith("(") ? ")" : "")),
  ),
})); // prettier-ignore

/** The same ones for the same seed. */
export function anyFormulas(seed: number, count: number): AnyFormula[] {
  const fair = formula.filter(({ typed }) => typed.length > 8 && typed.length < 200);
  return fc.sample(fc.noBias(fair), { seed, numRuns: count });
}
