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
  for (const { token } of hits.sort((a, b) => a.token.from - b.token.from)) {
    renamed += formula.slice(copied, token.from) + textLiteral(to);
    copied = token.from + token.value.length;
  }
  return renamed + formula.slice(copied);
}
