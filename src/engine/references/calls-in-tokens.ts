import { type Token as AnyToken, tokenTypes } from "@borgar/fx/xlsx";

type Token = Pick<AnyToken, "type" | "value">;

/** Tokens from `start` up to before `end`. */
export interface TokenRange {
  readonly start: number;
  readonly end: number;
}

/** A call in a list of tokens, from its name to after its closing parenthesis. */
export interface CallInTokens extends TokenRange {
  readonly name: string;
  /** Without surrounding blanks; an omitted one is an empty range. */
  readonly args: readonly TokenRange[];
}

/** The call that begins at a place; undefined if none does. */
export function callAt(tokens: readonly Token[], start: number): CallInTokens | undefined {
  const name = tokens[start];
  if (name?.type !== tokenTypes.FUNCTION || tokens[start + 1]?.value !== "(") return undefined;
  const args: TokenRange[] = [];
  let depth = 0;
  let begun = start + 2;
  for (let i = start + 1; i < tokens.length; i++) {
    const token = tokens[i];
    if (opens(token)) depth++;
    else if (closes(token)) depth--;
    const ends = depth === 0;
    if (!ends && !(depth === 1 && isOperatorToken(token, ","))) continue;
    args.push(trimmed(tokens, { start: begun, end: i }));
    begun = i + 1;
    if (ends) return { name: name.value, start, end: i + 1, args: isEmpty(args) ? [] : args };
  }
  return undefined;
}

/** The innermost call around a place, and which of its arguments the place is in. */
export function callAround(
  tokens: readonly Token[],
  place: number,
): { readonly call: CallInTokens; readonly arg: TokenRange } | undefined {
  for (let i = place, depth = 0; i >= 0; i--) {
    const token = tokens[i];
    if (i < place && closes(token)) depth++;
    else if (i < place && opens(token) && --depth < 0) {
      depth = 0;
      const call = callAt(tokens, i - 1);
      const arg = call?.args.find(({ start, end }) => place >= start && place < end);
      if (call && arg) return { call, arg };
    }
  }
  return undefined;
}

/** The operand of an operator before it: a call, a parenthesised group, a reference or another single token. */
export function operandAt(tokens: readonly Token[], start: number): TokenRange {
  const call = callAt(tokens, start);
  if (call) return call;
  if (!opens(tokens[start])) return { start, end: start + (tokens[start + 1]?.value === "#" ? 2 : 1) };
  let depth = 0;
  for (let i = start; i < tokens.length; i++) {
    if (opens(tokens[i])) depth++;
    else if (closes(tokens[i]) && --depth === 0) return { start, end: i + 1 };
  }
  return { start, end: tokens.length };
}

/** The call or group that ends before a place. */
export function groupBefore(tokens: readonly Token[], end: number): readonly Token[] {
  for (let i = end - 1, depth = 0; i >= 0; i--) {
    if (isOperatorToken(tokens[i], ")", "}")) depth++;
    else if (isOperatorToken(tokens[i], "(", "{") && --depth === 0)
      return tokens.slice(tokens[i - 1]?.type === tokenTypes.FUNCTION ? i - 1 : i, end);
  }
  return [];
}

/** Strips blanks at either end, and parentheses around the whole. */
export function bare<T extends Token>(tokens: readonly T[]): readonly T[] {
  const { start, end } = trimmed(tokens, { start: 0, end: tokens.length });
  const inner = tokens.slice(start, end);
  const isGroup = inner[0]?.value === "(" && operandAt(inner, 0).end === inner.length;
  return isGroup ? bare(inner.slice(1, -1)) : inner;
}

/** The next token on one side that is not a blank. */
export function neighbour(tokens: readonly Token[], place: number, step: 1 | -1): Token | undefined {
  let i = place + step;
  while (tokens[i]?.type === tokenTypes.WHITESPACE) i += step;
  return tokens[i];
}

export function isOperatorToken(token: Token | undefined, ...values: readonly string[]): boolean {
  return token?.type === tokenTypes.OPERATOR && values.includes(token.value);
}

const opens = (token: Token | undefined): boolean => isOperatorToken(token, "(", "{");
const closes = (token: Token | undefined): boolean => isOperatorToken(token, ")", "}");
const isEmpty = ([first, ...more]: readonly TokenRange[]): boolean =>
  more.length === 0 && first?.start === first?.end;

function trimmed(tokens: readonly Token[], { start, end }: TokenRange): TokenRange {
  while (start < end && tokens[start]?.type === tokenTypes.WHITESPACE) start++;
  while (end > start && tokens[end - 1]?.type === tokenTypes.WHITESPACE) end--;
  return { start, end };
}
