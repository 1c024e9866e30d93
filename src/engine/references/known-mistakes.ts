import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { unionOrIntersection } from "../messages.js";

const references = new Set<string>([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);

/**
 * What Univer is known to calculate differently from Excel and only the whole formula shows; undefined if there is
 * nothing.
 */
export function knownMistake(tokens: readonly Token[]): string | undefined {
  return joinsRanges(tokens) ? unionOrIntersection : undefined;
}

/** "(A1,B2)" or "A1:B2 B1:C3". A comma outside any call or list joins ranges. */
function joinsRanges(tokens: readonly Token[]): boolean {
  const open: boolean[] = [];
  return tokens.some((token, i) => {
    const before = tokens[i - 1];
    const after = tokens[i + 1];
    if (token.value === "(" || token.value === "{")
      open.push(token.value === "{" || before?.type === tokenTypes.FUNCTION || before?.value === ")");
    else if (token.value === ")" || token.value === "}") open.pop();
    else if (token.value === ",") return open.at(-1) !== true;
    else if (token.type === tokenTypes.WHITESPACE || token.value === " ")
      return isReference(before) && isReference(after);
    return false;
  });
}

const isReference = (token: Token | undefined): boolean => token !== undefined && references.has(token.type);
