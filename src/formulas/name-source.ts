import { tokenTypes } from "@borgar/fx/xlsx";
import { nameKey } from "../instruments/name.js";
import { declaredNames, withoutPrefix } from "./declared-names.js";
import { parseFormula, type ArgumentTokens, type OwnFunctions } from "./own-calls.js";
import { literalText } from "./text-literal.js";
import { isOperator, type FormulaToken } from "./tokens.js";
import { argumentReference } from "./argument-reference.js";

/** A name written in the text of a formula. */
export interface WrittenName {
  readonly text: string;
  /** The text or number literal that contains it. */
  readonly token: FormulaToken;
}

/** Sources of the instrument names in a formula. */
export interface NameSources {
  readonly written: readonly WrittenName[];
  /** References, as written: cells, defined names or columns of tables. */
  readonly references: readonly string[];
  /** Some name is computed by the formula, so it may be any name. */
  readonly computed: boolean;
}

const nameless = new Set<string>([tokenTypes.BOOLEAN, tokenTypes.ERROR]);

/** Reads the arguments that name instruments, in all calls of our functions. */
export function nameSources(formula: string, functions: OwnFunctions): NameSources {
  const { tokens, calls } = parseFormula(formula, functions);
  const locals = declaredNames(tokens);
  const written: WrittenName[] = [];
  const references: string[] = [];
  let computed = false;
  for (const { function: fn, args } of calls)
    for (const [i, argument] of args.entries()) {
      if (fn.parameters[i]?.namesInstrument !== true) continue;
      const bare = unwrapped(argument);
      const constants = bare.length === 1 ? bare : arrayElements(bare);
      const reference = isLocal(bare[0], locals) ? undefined : argumentReference(bare);
      if (constants?.every(isConstant)) written.push(...constants.flatMap(nameIn));
      else if (reference !== undefined) references.push(reference);
      else if (bare.length > 0) computed = true;
    }
  return { written, references, computed };
}

/** An argument without leading "@" and enclosing brackets, which do not change the cells it refers to. */
function unwrapped(argument: ArgumentTokens): ArgumentTokens {
  if (isOperator(argument[0], "@")) return unwrapped(argument.slice(1));
  const inner = argument.slice(1, -1);
  const isWrapped = isOperator(argument[0], "(") && isOperator(argument.at(-1), ")");
  return isWrapped && !inner.some((token) => isOperator(token, "(", ")")) ? unwrapped(inner) : argument;
}

/** Elements of an array constant such as {"a","b"}. */
function arrayElements(argument: ArgumentTokens): ArgumentTokens | undefined {
  if (!isOperator(argument[0], "{") || !isOperator(argument.at(-1), "}")) return undefined;
  return argument.slice(1, -1).filter((token) => !isOperator(token, ",", ";"));
}

const isConstant = ({ type }: FormulaToken): boolean =>
  type === tokenTypes.STRING || type === tokenTypes.NUMBER || nameless.has(type);

/** A number stands for the name that it spells; 0 and an empty text are no name. */
function nameIn(token: FormulaToken): WrittenName[] {
  if (nameless.has(token.type)) return [];
  const isText = token.type === tokenTypes.STRING;
  const text = isText ? literalText(token.value) : String(Number(token.value));
  return nameKey(text) === "" || (!isText && text === "0") ? [] : [{ text, token }];
}

function isLocal(token: FormulaToken | undefined, locals: ReadonlySet<string>): boolean {
  return token?.type === tokenTypes.REF_NAMED && locals.has(withoutPrefix(token.value).toLowerCase());
}
