import type { SheetPlace } from "../cells/place.js";
import type { SheetArea } from "../cells/area.js";
import { nameKey } from "../instruments/name.js";
import { resolveReference, type Names } from "./references.js";
import { nameSources } from "./name-source.js";
import type { OwnFunctions } from "./own-calls.js";

/** Sources of the instrument names in a formula, with references resolved to cells. */
export interface NamedInstruments {
  /** Names in the text of the formula. */
  readonly written: readonly string[];
  /** Names held as text by defined names. */
  readonly defined: readonly string[];
  readonly areas: readonly SheetArea[];
  /** Some name is computed or cannot be resolved here, so it may be any name. */
  readonly any: boolean;
}

/** @param formula with "=" */
export function namedInstruments(
  formula: string,
  at: SheetPlace,
  names: Names,
  functions: OwnFunctions,
): NamedInstruments {
  const { written, references, computed } = nameSources(formula, functions);
  const targets = references.map((reference) => resolveReference(reference, at, names));
  return {
    written: written.map(({ text }) => text),
    defined: targets.flatMap((target) => (target && "text" in target ? [target.text] : [])),
    areas: targets.flatMap((target) => (target && "sheet" in target ? [target] : [])),
    any: computed || targets.includes(undefined),
  };
}

/** The name in a cell. A number stands for the name that it spells; 0 may come from a blank. */
export function nameInCell(value: unknown): string[] {
  if (value === 0 || (typeof value !== "string" && typeof value !== "number")) return [];
  return nameKey(String(value)) === "" ? [] : [String(value)];
}

/** Each name once, in its first spelling. */
export function distinctNames(names: readonly string[]): string[] {
  const seen = new Map<string, string>();
  for (const name of names) if (!seen.has(nameKey(name))) seen.set(nameKey(name), name);
  return [...seen.values()];
}
