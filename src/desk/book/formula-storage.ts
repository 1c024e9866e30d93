import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { declaredNames } from "../../formulas/declared-names.js";
import { boundFormula } from "../../formulas/formula-text.js";
import { futureFunctions, worksheetFutureFunctions } from "./future-functions.js";

/** A typed formula as a file stores it, so that Excel calculates the same. Without "=". */
export function storedText(typed: string, functions: CellFunctions): string {
  const tokens = tokenize(boundFormula(typed, functions));
  const locals = declaredNames(tokens);
  return tokens
    .map(({ type, value }) => {
      const upper = value.toUpperCase();
      if (type === tokenTypes.FUNCTION && worksheetFutureFunctions.has(upper)) return `_xlfn._xlws.${upper}`;
      if (type === tokenTypes.FUNCTION && futureFunctions.has(upper)) return `_xlfn.${upper}`;
      const isLocal = locals.has(value.toLowerCase());
      return isLocal && (type === tokenTypes.REF_NAMED || type === tokenTypes.FUNCTION)
        ? `_xlpm.${value}`
        : value;
    })
    .join("");
}
