import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { isOperator, isSignificant } from "./tokens.js";

const declaring = /^(?:_xlfn\.)?(LET|LAMBDA)$/i;
const none: ReadonlySet<string> = new Set();

/** "_xlfn._xlws.FILTER" is FILTER, "_xlpm.x" is x. */
export function withoutPrefix(name: string): string {
  return name.replace(/^(?:_xlfn\.|_xlws\.|_xlpm\.|_xlop\.)+/i, "");
}

/**
 * The names that LET and LAMBDA declare in a formula, in lower case and without the prefixes of files.
 *
 * A declaration is a bare name between commas or brackets in a declaring position: any argument of LAMBDA but the last,
 * every other argument of LET. In files such names carry the prefix "_xlpm.", or "_xlop." if a parameter of LAMBDA is
 * optional; typed formulas have no prefix.
 */
export function declaredNames(tokens: readonly Pick<Token, "type" | "value">[]): ReadonlySet<string> {
  if (!tokens.some((token) => token.type === tokenTypes.FUNCTION && declaring.test(token.value))) return none;
  const names = new Set<string>();
  const open: { readonly declares: string; argument: number }[] = [];
  const significant = tokens.filter(isSignificant);
  for (const [i, token] of significant.entries()) {
    const call = open.at(-1);
    if (isOperator(token, "(", "{")) {
      const before = significant[i - 1];
      const declares = before?.type === tokenTypes.FUNCTION ? declaring.exec(before.value)?.[1] : undefined;
      open.push({ declares: declares?.toUpperCase() ?? "", argument: 0 });
    } else if (isOperator(token, ")", "}")) {
      open.pop();
    } else if (isOperator(token, ",")) {
      if (call) call.argument++;
    } else if (token.type === tokenTypes.REF_NAMED && significant[i + 1]?.value === ",") {
      const bare = ["(", ","].includes(significant[i - 1]?.value ?? "");
      const inTurn = call?.declares === "LAMBDA" || (call?.declares === "LET" && call.argument % 2 === 0);
      if (bare && inTurn) names.add(withoutPrefix(token.value).toLowerCase());
    }
  }
  return names;
}
