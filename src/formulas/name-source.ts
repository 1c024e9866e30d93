import { tokenTypes } from "@borgar/fx/xlsx";
import { nameKey } from "../instruments/name.js";
import { declaredNames, withoutPrefix } from "./declared-names.js";
import { readFormula, type ArgumentPieces, type OwnFunctions } from "./own-calls.js";
import { literalText } from "./text-literal.js";
import { isOperator, type Piece } from "./tokens.js";
import { argumentReference } from "./argument-reference.js";

/** A name that stands in a formula's own text. */
export interface WrittenName {
  readonly text: string;
  /** The text in quotes, or the number, that writes it. */
  readonly piece: Piece;
}

/** Where a formula takes the names of instruments from. */
export interface NameSources {
  readonly written: readonly WrittenName[];
  /** References, as written: cells, defined names or columns of tables. */
  readonly references: readonly string[];
  /** Some name is worked out by the formula, so it may be any. */
  readonly computed: boolean;
}

const nameless = new Set<string>([tokenTypes.BOOLEAN, tokenTypes.ERROR]);

/** Reads the arguments that name instruments, in all calls of our functions. */
export function nameSources(formula: string, functions: OwnFunctions): NameSources {
  const { solid, calls } = readFormula(formula, functions);
  const locals = declaredNames(solid);
  const written: WrittenName[] = [];
  const references: string[] = [];
  let computed = false;
  for (const { function: fn, args } of calls)
    for (const [i, argument] of args.entries()) {
      if (fn.parameters[i]?.namesInstrument !== true) continue;
      const bare = unwrapped(argument);
      const constants = bare.length === 1 ? bare : listed(bare);
      const reference = isLocal(bare[0], locals) ? undefined : argumentReference(bare);
      if (constants?.every(isConstant)) written.push(...constants.flatMap(nameIn));
      else if (reference !== undefined) references.push(reference);
      else if (bare.length > 0) computed = true;
    }
  return { written, references, computed };
}

/** Without what changes nothing about the cells that it leads to: "@" and brackets around it all. */
function unwrapped(argument: ArgumentPieces): ArgumentPieces {
  if (isOperator(argument[0], "@")) return unwrapped(argument.slice(1));
  const inner = argument.slice(1, -1);
  const isWrapped = isOperator(argument[0], "(") && isOperator(argument.at(-1), ")");
  return isWrapped && !inner.some((piece) => isOperator(piece, "(", ")")) ? unwrapped(inner) : argument;
}

/** The constants of "{"a","b"}". */
function listed(argument: ArgumentPieces): ArgumentPieces | undefined {
  if (!isOperator(argument[0], "{") || !isOperator(argument.at(-1), "}")) return undefined;
  return argument.slice(1, -1).filter((piece) => !isOperator(piece, ",", ";"));
}

const isConstant = ({ type }: Piece): boolean =>
  type === tokenTypes.STRING || type === tokenTypes.NUMBER || nameless.has(type);

/** A number is the name that it spells; 0 and an empty text are no name. */
function nameIn(piece: Piece): WrittenName[] {
  if (nameless.has(piece.type)) return [];
  const isText = piece.type === tokenTypes.STRING;
  const text = isText ? literalText(piece.value) : String(Number(piece.value));
  return nameKey(text) === "" || (!isText && text === "0") ? [] : [{ text, piece }];
}

function isLocal(piece: Piece | undefined, locals: ReadonlySet<string>): boolean {
  return piece?.type === tokenTypes.REF_NAMED && locals.has(withoutPrefix(piece.value).toLowerCase());
}
