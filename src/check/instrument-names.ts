import { nameInCell, namedInstruments } from "../formulas/named-instruments.js";
import { findInstrument } from "../instruments/find.js";
import { nameKey } from "../instruments/name.js";
import type { Spotted } from "./finding.js";
import type { Seen, SeenFormula } from "./own-calls-seen.js";

/** Instruments named in formulas. */
export interface NamesFound {
  readonly missing: readonly (Spotted & { readonly formula: SeenFormula })[];
  /** Profiles that no formula names. */
  readonly unused: readonly string[];
}

/** Instruments that formulas name and the workbook lacks, and those it has but no formula names. */
export function instrumentNames({ formulas, names, own, book, instruments, cellsIn }: Seen): NamesFound {
  const used = new Set<string>();
  const missing: (Spotted & { formula: SeenFormula })[] = [];
  let any = false;
  for (const formula of formulas) {
    const place = { ...formula.at, sheet: formula.sheet };
    const found = namedInstruments(formula.typed, place, names, own);
    any ||= found.any;
    const note = (name: string): void => {
      used.add(nameKey(name));
      if (!findInstrument(instruments, name))
        missing.push({ kind: "missing-instrument", at: formula.at, about: name, value: name, formula });
    };
    for (const name of [...found.written, ...found.defined]) if (nameInCell(name).length > 0) note(name);
    for (const { sheet, ...area } of found.areas) {
      const cells = cellsIn({ ...area, sheet: book.sheetNamed(sheet) ?? -1 });
      for (const name of new Set(cells.flatMap(({ value }) => nameInCell(value)))) note(name);
    }
  }
  const unused = instruments.instruments.map(({ name }) => name).filter((name) => !used.has(nameKey(name)));
  // A computed name may be any of them.
  return { missing, unused: any ? [] : unused };
}
