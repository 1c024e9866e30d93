import { nameInCell, namedInstruments } from "../formulas/named-instruments.js";
import { findInstrument } from "../instruments/find.js";
import { nameKey } from "../instruments/name.js";
import type { Spotted } from "./finding.js";
import type { Seen, SeenFormula } from "./own-calls-seen.js";

/** What formulas say about instruments. */
export interface NamesFound {
  readonly missing: readonly (Spotted & { readonly formula: SeenFormula })[];
  /** Names of profiles that no formula names. */
  readonly unused: readonly string[];
}

/** Instruments that formulas name and the workbook lacks, and those it has and no formula names. */
export function instrumentNames({ formulas, names, own, book, instruments, valueAt }: Seen): NamesFound {
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
    for (const { sheet, top, left, bottom, right } of found.areas) {
      const index = book.sheetNamed(sheet) ?? -1;
      const said = new Set<string>();
      // A column of names is as long as the log, not as the sheet.
      for (let row = top; row <= Math.min(bottom, top + 100_000); row++)
        for (let column = left; column <= Math.min(right, left + 100); column++)
          for (const name of nameInCell(valueAt(index, row, column))) said.add(name);
      for (const name of said) note(name);
    }
  }
  const unused = instruments.instruments.map(({ name }) => name).filter((name) => !used.has(nameKey(name)));
  // A name that a formula works out may be any of them.
  return { missing, unused: any ? [] : unused };
}
