import type { Position } from "../../cells/place.js";
import type { Translation } from "./translation.js";
import { parseA1Ref, type Token, tokenTypes } from "@borgar/fx/xlsx";
import type { Book } from "./book.js";
import type { CellFunctions } from "../ours/cell-functions.js";
import { declaredNames, withoutPrefix } from "../../formulas/declared-names.js";
import { unqualified } from "../../formulas/formula-text.js";
import { callAt } from "./calls-in-tokens.js";
import { withoutAt } from "./implicit-intersection.js";
import {
  calledByName,
  endlessName,
  externalReference,
  functionAsValue,
  sheetSpan,
  trimmedRange,
  unknownName,
  unknownOwnFunction,
  unreadable,
} from "../messages.js";
import { resolveStructured } from "./structured-reference.js";
import { type WrittenReference, writtenReference } from "./written-reference.js";

/** @param text of a formula as stored in a file or typed by a user */
export function translate(text: string, at: Position, book: Book, functions: CellFunctions): Translation {
  return new Translator(at, book, functions).run(text);
}

/** "[0]" is the workbook itself. */
const isExternal = ({ workbookName }: { readonly workbookName?: string | undefined }): boolean =>
  workbookName !== undefined && workbookName !== "" && workbookName !== "0";

const unmoved = { rows: 0, columns: 0 };

class Translator {
  readonly #tokens: Token[] = [];
  readonly #references: WrittenReference[] = [];
  readonly #alsoReads: WrittenReference[] = [];
  /** Defined names being expanded, outermost first. */
  readonly #within: string[] = [];
  #obstacle: string | undefined;

  constructor(
    readonly at: Position,
    readonly book: Book,
    readonly functions: CellFunctions,
  ) {}

  run(text: string): Translation {
    this.#add(unqualified(text, this.functions));
    const translation = {
      tokens: this.#tokens,
      references: this.#references,
      alsoReads: this.#alsoReads,
      ...(this.#obstacle === undefined ? {} : { obstacle: this.#obstacle }),
    };
    return withoutAt(translation, this.at);
  }

  #add(tokens: readonly Pick<Token, "type" | "value">[]): void {
    const locals = declaredNames(tokens);
    const isLocal = (name: string): boolean =>
      locals.size > 0 && locals.has(withoutPrefix(name).toLowerCase());
    for (const [i, token] of tokens.entries()) {
      const { type, value } = token;
      switch (type) {
        case tokenTypes.FX_PREFIX:
          break;
        case tokenTypes.FUNCTION:
          if (isLocal(value)) {
            this.#stop(calledByName(withoutPrefix(value)));
            this.#push(type, withoutPrefix(value));
          } else this.#addFunction(value);
          break;
        case tokenTypes.REF_NAMED:
          if (isLocal(value)) this.#push(type, withoutPrefix(value));
          else this.#addName(value);
          break;
        case tokenTypes.REF_STRUCT:
          this.#addStructured(value);
          break;
        case tokenTypes.REF_RANGE:
        case tokenTypes.REF_BEAM:
        case tokenTypes.REF_TERNARY:
          this.#addRange(value);
          break;
        case tokenTypes.CONTEXT:
          // "Sheet1!#REF!" is three tokens, of which only the error counts.
          if (tokens[i + 2]?.type !== tokenTypes.ERROR) this.#stop(unreadable(value));
          break;
        case tokenTypes.OPERATOR:
          // "!A1", in defined names, is A1 of whichever sheet uses the name.
          if (value !== "!") this.#push(type, value);
          break;
        case tokenTypes.NEWLINE:
          this.#push(tokenTypes.WHITESPACE, " ");
          break;
        case tokenTypes.UNKNOWN:
          this.#stop(unreadable(value));
          this.#push(tokenTypes.ERROR, "#NAME?");
          break;
        default:
          this.#push(type, value);
      }
    }
  }

  #addFunction(spelling: string): void {
    const own = this.functions.find(spelling);
    if (own) {
      this.#push(tokenTypes.FUNCTION, own.name);
      return;
    }
    if (this.functions.claims(spelling)) this.#stop(unknownOwnFunction(spelling));
    const name = withoutPrefix(spelling);
    // Calling a defined name calls the LAMBDA it holds.
    if (this.book.definedName(name, this.at.sheet)) this.#addDefinition(name, this.at.sheet);
    else this.#push(tokenTypes.FUNCTION, name.toUpperCase());
  }

  #addName(text: string): void {
    const parsed = parseA1Ref(text);
    if (!parsed || !("name" in parsed)) {
      this.#stop(unreadable(text));
      return;
    }
    if (isExternal(parsed)) {
      this.#addExternal(text);
      return;
    }
    const sheet = parsed.sheetName ? this.book.sheetNamed(parsed.sheetName) : this.at.sheet;
    if (sheet !== undefined && this.book.definedName(parsed.name, sheet)) {
      this.#addDefinition(parsed.name, sheet);
    } else if (this.book.table(parsed.name)) {
      this.#addStructured(`${parsed.name}[]`);
    } else {
      const passed = /^_xleta\.(.+)$/i.exec(parsed.name)?.[1];
      this.#stop(passed === undefined ? unknownName(parsed.name) : functionAsValue(withoutPrefix(passed)));
      this.#push(tokenTypes.ERROR, "#NAME?");
    }
  }

  #addDefinition(name: string, sheet: number): void {
    const definition = this.book.definedName(name, sheet);
    if (!definition) return;
    const key = `${definition.sheet ?? ""}!${definition.name}`;
    if (this.#within.includes(key)) {
      this.#stop(endlessName(name));
      this.#push(tokenTypes.ERROR, "#NAME?");
      return;
    }
    const tokens = unqualified(definition.refersTo, this.functions);
    // Univer calls a LAMBDA only without parentheses around it.
    const isLambda = withoutPrefix(tokens[0]?.value ?? "").toUpperCase() === "LAMBDA";
    const alone = tokens.length === 1 || (isLambda && callAt(tokens, 0)?.end === tokens.length);
    this.#within.push(key);
    if (!alone) this.#push(tokenTypes.OPERATOR, "(");
    this.#add(tokens);
    if (!alone) this.#push(tokenTypes.OPERATOR, ")");
    this.#within.pop();
  }

  #addStructured(text: string): void {
    const resolved = resolveStructured(text, this.at, this.book);
    if (resolved.kind === "cells") this.#pushReference(resolved.reference);
    else {
      if (resolved.kind === "obstacle") this.#stop(resolved.reason);
      this.#push(tokenTypes.ERROR, resolved.kind === "error" ? resolved.error : "#REF!");
    }
  }

  #addRange(text: string): void {
    const parsed = parseA1Ref(text);
    if (!parsed || !("range" in parsed)) {
      this.#stop(unreadable(text));
      return;
    }
    if (isExternal(parsed)) {
      this.#addExternal(text);
      return;
    }
    const moved = this.#within.length > 0 ? { rows: this.at.row, columns: this.at.column } : unmoved;
    const [first, last] = parsed.sheetName?.split(":") ?? [];
    if (first !== undefined && last !== undefined) {
      this.#stop(sheetSpan(text));
      this.#push(tokenTypes.ERROR, "#REF!");
      for (const each of this.#sheetsBetween(first, last))
        this.#alsoReads.push(writtenReference(parsed.range, each, moved));
      return;
    }
    if (parsed.range.trim) this.#stop(trimmedRange(text));
    const sheet = parsed.sheetName ? this.book.sheetNamed(parsed.sheetName) : this.at.sheet;
    if (sheet === undefined) this.#push(tokenTypes.ERROR, "#REF!");
    else this.#pushReference(writtenReference(parsed.range, sheet, moved));
  }

  /** Its sheets are not ours, though they may have the same names. */
  #addExternal(text: string): void {
    this.#stop(externalReference(text));
    this.#push(tokenTypes.ERROR, "#REF!");
  }

  #sheetsBetween(first: string, last: string): number[] {
    const ends = [this.book.sheetNamed(first), this.book.sheetNamed(last)].filter((end) => end !== undefined);
    const [from, to] = [Math.min(...ends), Math.max(...ends)];
    return [...this.book.sheetNames.keys()].filter((sheet) => sheet >= from && sheet <= to);
  }

  #pushReference(reference: WrittenReference): void {
    this.#push(tokenTypes.REF_RANGE, String(this.#references.length));
    this.#references.push(reference);
  }

  #push(type: string, value: string): void {
    this.#tokens.push({ type, value });
  }

  #stop(reason: string): void {
    this.#obstacle ??= reason;
  }
}
