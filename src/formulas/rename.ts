import { nameKey } from "../instruments/name.js";
import { nameSources } from "./name-source.js";
import type { OwnFunctions } from "./own-calls.js";
import { textLiteral } from "./text-literal.js";

/** The formula with the instrument renamed wherever its text names it; every other character stays. */
export function renamedFormula(formula: string, from: string, to: string, functions: OwnFunctions): string {
  const key = nameKey(from);
  let renamed = "";
  let copied = 0;
  const hits = nameSources(formula, functions).written.filter(({ text }) => nameKey(text) === key);
  for (const { piece } of hits.sort((a, b) => a.piece.from - b.piece.from)) {
    renamed += formula.slice(copied, piece.from) + textLiteral(to);
    copied = piece.from + piece.value.length;
  }
  return renamed + formula.slice(copied);
}
