/** What can be wrong with a workbook, or worth a look. */
export type FindingKind =
  /** A formula of ours that the spreadsheet program does not tie to our functions. */
  | "unbound"
  | "missing-instrument"
  | "off-scale"
  | "text-number"
  | "error"
  | "fahrenheit-like"
  | "celsius-like"
  | "mixed-gravities"
  /** What depends on our functions and could not be calculated here. */
  | "unchecked"
  | "unused-instrument"
  | "protected-sheet";

/** A fault makes a number wrong or missing, a doubt may, a note is to know. */
export type Severity = "fault" | "doubt" | "note";

export const severities: Readonly<Record<FindingKind, Severity>> = {
  unbound: "fault",
  "missing-instrument": "fault",
  "off-scale": "fault",
  "text-number": "fault",
  error: "fault",
  "fahrenheit-like": "doubt",
  "celsius-like": "doubt",
  "mixed-gravities": "note",
  unchecked: "note",
  "unused-instrument": "note",
  "protected-sheet": "note",
};

/** The same thing in cells of one column. */
export interface Finding {
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** Missing for what concerns the whole workbook. */
  readonly sheet?: string;
  /** Such as "E4:E9", "E12": cells one below the other together. Empty for what concerns a whole sheet or more. */
  readonly cells: readonly string[];
  /** How many cells these are. */
  readonly count: number;
  /** What it is, and what to do, in sentences. */
  readonly says: string;
}

/** Something in one cell, before what belongs together is put together. */
export interface Spotted {
  readonly kind: FindingKind;
  /** Sheet, row and column from 0. */
  readonly at: { readonly sheet: number; readonly row: number; readonly column: number };
  /** Spotted cells of a column belong together where this is the same: an instrument, the message of an error. */
  readonly about: string;
  /** What stands in the cell, as people read it. */
  readonly value: string;
}
