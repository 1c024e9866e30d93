import { type Token, tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { LexerTreeBuilder } from "@univerjs/engine-formula";
import { isOperator, isSignificant } from "../../formulas/tokens.js";
import { operandAt } from "../references/calls-in-tokens.js";

type Build = (
  this: LexerTreeBuilder,
  ...given: Parameters<LexerTreeBuilder["treeBuilder"]>
) => ReturnType<LexerTreeBuilder["treeBuilder"]>;

/** Makes Univer calculate signs and percents in the order that spreadsheets do; call it once. */
export function readSignsInOrder(): void {
  const { prototype } = LexerTreeBuilder;
  const { treeBuilder } = prototype as unknown as { readonly treeBuilder: Build };
  prototype.treeBuilder = function (this: LexerTreeBuilder, formula, isCalculated = true, names) {
    const read = isCalculated && hasSigns.test(formula) ? withPlainSigns(formula) : formula;
    return treeBuilder.call(this, read, isCalculated, names);
  };
}

const hasSigns = /^=.*(?:[+%]|-\s*-)/s;

/** The same formula with signs that Univer reads correctly. */
function withPlainSigns(formula: string): string {
  const tokens = withSignsApart(
    withoutPercents(withoutPlusSigns(tokenize(formula, { negativeNumbers: false }))),
  );
  return tokens.map(({ value }) => value).join("");
}

/** A unary "+" has no effect; Univer would convert the value to a number. */
function withoutPlusSigns(tokens: readonly Token[]): readonly Token[] {
  let isValueBefore = false;
  return tokens.filter(({ type, value }) => {
    if (type === tokenTypes.WHITESPACE) return true;
    const isOperator = type === tokenTypes.OPERATOR;
    if (isOperator && value === "+" && !isValueBefore) return false;
    isValueBefore = isOperator ? ")}%#".includes(value) : type !== tokenTypes.FUNCTION;
    return true;
  });
}

/** "x%" as "(x/100)": Univer reads "%" only after some operands. */
function withoutPercents(tokens: readonly Token[]): readonly Token[] {
  const written: Token[] = [];
  for (const token of tokens) {
    if (token.value !== "%" || token.type !== tokenTypes.OPERATOR) {
      written.push(token);
      continue;
    }
    written.splice(operandStart(written), 0, operator("("));
    written.push(operator("/"), { type: tokenTypes.NUMBER, value: "100" }, operator(")"));
  }
  return written;
}

const operator = (value: string): Token => ({ type: tokenTypes.OPERATOR, value });

/** Start of the operand that ends the tokens: one token, or a group with the function before it. */
function operandStart(tokens: readonly Token[]): number {
  let place = tokens.length - 1;
  while (place > 0 && (tokens[place]?.type === tokenTypes.WHITESPACE || tokens[place]?.value === "#"))
    place--;
  if (tokens[place]?.value !== ")" && tokens[place]?.value !== "}") return place;
  for (let open = 0; place >= 0; place--) {
    const value = tokens[place]?.value;
    if (value === ")" || value === "}") open++;
    if ((value === "(" || value === "{") && --open === 0) break;
  }
  return tokens[place - 1]?.type === tokenTypes.FUNCTION ? place - 1 : place;
}

/** "--x" as "-(-x)": Univer takes the first of two signs for a subtraction. */
function withSignsApart(tokens: readonly Token[]): readonly Token[] {
  const written = [...tokens];
  for (const place of doubledSigns(tokens).reverse()) {
    const { end } = operandAt(written, solidAfter(written, place));
    written.splice(end, 0, operator(")"));
    written.splice(place, 0, operator("("));
  }
  return written;
}

/** Each unary "-" that follows another "-". */
function doubledSigns(tokens: readonly Token[]): number[] {
  const places: number[] = [];
  let before: Token | undefined;
  for (const [place, token] of tokens.entries()) {
    if (!isSignificant(token)) continue;
    if (isOperator(token, "-") && isOperator(before, "-")) places.push(place);
    before = token;
  }
  return places;
}

function solidAfter(tokens: readonly Token[], place: number): number {
  let next = place + 1;
  while (next < tokens.length && !isSignificant(tokens[next] as Token)) next++;
  return next;
}
