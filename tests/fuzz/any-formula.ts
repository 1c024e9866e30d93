// Formulas that nobody should write, and some that people do. As the file has them: escaped for XML.
import { catalogue } from "../../src/functions/catalogue.js";
import type { Dice } from "./dice.js";

const atoms = [
  ...[
    "1.05",
    "1046",
    "12",
    "-1E+308",
    "1E-320",
    "0",
    '""',
    '"P"',
    '"Pocket prism"',
    '"n/a"',
    "TRUE",
    "#N/A",
    "#REF!",
  ],
  ...[
    "A1",
    "$B$2",
    "A1:B3",
    "A:A",
    "1:2",
    "S!A1",
    "'No sheet'!A1",
    "[1]Other!A1",
    "Nowhere",
    "Table1[#All]",
    "A1#",
  ],
  ...["{1,2;3,4}", "{1;}", "XFD1048576", "A1048577", "A1 B2", "(A1,B2)", "@A1", "S:S!A1", 'INDIRECT("A"&1)'],
];

const others = [
  "SUM",
  "IF",
  "IFERROR",
  "INDEX",
  "OFFSET",
  "LET",
  "LAMBDA",
  "NO.SUCH",
  "_xlfn.FILTER",
  "RAND",
  "TODAY",
];

const names = catalogue.map(({ name }) => name);

function ours(dice: Dice): string {
  const name = dice.chance(0.05) ? "NONE" : dice.pick(names);
  return dice.chance(0.5) ? `GYLE.${name}` : `_xldudf_GYLE_${name.replaceAll(".", "_")}`;
}

function expression(dice: Dice, depth: number): string {
  const inner = (): string => expression(dice, depth - 1);
  if (depth <= 0 || dice.chance(0.2)) return dice.pick(atoms);
  const call = dice.chance(0.7) ? ours(dice) : dice.pick(others);
  if (dice.chance(0.6)) return `${call}(${Array.from({ length: dice.below(7) }, inner).join(",")})`;
  return dice.pick([
    `${inner()}${dice.pick(["+", "-", "*", "/", "^", "&", "=", "<>", ">=", " ", ":", ","])}${inner()}`,
    `(${inner()})`,
    `-${inner()}`,
    `${inner()}%`,
  ]);
}

const deep = (dice: Dice): string => {
  const levels = dice.pick([70, 300, 3000]);
  return dice.pick([
    `GYLE.ABV(${"(".repeat(levels)}1.05${")".repeat(levels)},1.01)`,
    `${"GYLE.ABV(".repeat(levels)}1.05${",1.01)".repeat(levels)}`,
    `GYLE.ABV(${"-".repeat(levels)}1.05,1.01)`,
    `GYLE.BLEND(A1${"+A1".repeat(levels)},1.05)`,
  ]);
};

/** Cuts text off somewhere, or puts something into it. */
function damaged(text: string, dice: Dice): string {
  const at = dice.below(text.length + 1);
  return dice.pick([
    text.slice(0, at),
    text.slice(at),
    text.slice(0, at) + dice.pick(["(", ")", '"', ",", "!", "'", "}", "\t"]) + text.slice(at),
  ]);
}

export function anyFormula(dice: Dice): string {
  const formula = dice.chance(0.05)
    ? deep(dice)
    : `${ours(dice)}(${Array.from({ length: dice.below(6) }, () => expression(dice, 2)).join(",")})`;
  const text = dice.chance(0.15) ? damaged(formula, dice) : formula;
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
