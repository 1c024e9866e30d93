// What goes over the whole workbook. Of checks and copies only types are imported: a worker does them.
import type { CellAddress } from "../../cells/place.js";
import type { Check } from "../../check/check.js";
import type { HandOverReport } from "../../handover/values.js";
import type { Way } from "../../handover/way.js";
import type { Work } from "./formulas-port.js";

/** A workbook that was looked through. */
export interface Checked extends Pick<Check, "sheets" | "findings"> {
  /** Formulas that the spreadsheet program does not tie to our functions. */
  readonly unbound: readonly CellAddress[];
}

/** A copy that was made for someone else. */
export interface HandedOverFile extends Pick<HandOverReport, "formulas" | "live"> {
  /** Where it is now, in a sentence. */
  readonly where: string;
  /** Those that were meant to go on calculating and are values, with the reason. */
  readonly notLive: readonly (CellAddress & { readonly why: string })[];
  /** Those that show an error. */
  readonly errors: readonly CellAddress[];
}

/** Looks through the workbook as it is now, and makes copies of it. */
export interface WholeWorkbook {
  /** Looks through the workbook. Changes nothing. */
  readonly check: (work: Work) => Promise<Checked>;
  /** Makes a copy of the workbook for someone else. The workbook itself stays as it is. */
  readonly handOver: (way: Way, work: Work) => Promise<HandedOverFile>;
}
