/** Kinds of faults in a workbook, and of things worth a look. */
export type FindingKind =
  /** A formula of ours that the spreadsheet program does not bind to our functions. */
  | "unbound"
  | "missing-instrument"
  | "off-scale"
  | "text-number"
  | "error"
  | "fahrenheit-like"
  | "celsius-like"
  | "mixed-gravities"
  /** A formula that depends on ours and could not be calculated here. */
  | "unchecked"
  | "unused-instrument"
  | "protected-sheet";

/** A fault makes a number wrong or missing, a doubt may do so, a note is for information. */
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

/** The same finding in cells of one column. */
export interface Finding {
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** Missing if it concerns the whole workbook. */
  readonly sheet?: string;
  /** Such as "E4:E9", "E12", with adjacent cells joined. Empty if it concerns a whole sheet or more. */
  readonly cells: readonly string[];
  /** Number of cells. */
  readonly count: number;
  /** What is wrong, and what to do, in sentences. */
  readonly says: string;
}

/** A finding in one cell, before grouping. */
export interface Spotted {
  readonly kind: FindingKind;
  /** Sheet, row and column from 0. */
  readonly at: { readonly sheet: number; readonly row: number; readonly column: number };
  /** Spotted cells of a column are grouped if this is equal: an instrument, the message of an error. */
  readonly about: string;
  /** Content of the cell in readable form. */
  readonly value: string;
}
