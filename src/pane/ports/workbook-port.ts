// Work on the whole workbook. Only types of checks and copies are imported: a worker makes them.
import type { CellAddress } from "../../cells/place.js";
import type { Check } from "../../check/check.js";
import type { HandOverReport } from "../../handover/values.js";
import type { Way } from "../../handover/way.js";
import type { Work } from "./formulas-port.js";

/** Result of checking a workbook. */
export interface Checked extends Pick<Check, "sheets" | "findings"> {
  /** Formulas that the spreadsheet program does not bind to our functions. */
  readonly unbound: readonly CellAddress[];
}

/** A copy made for someone else. */
export interface HandedOverFile extends Pick<HandOverReport, "formulas" | "live"> {
  /** Where it is now, in a sentence. */
  readonly where: string;
  /** Formulas that were to stay live but became fixed numbers, with the reason. */
  readonly notLive: readonly (CellAddress & { readonly why: string })[];
  /** Those that show an error. */
  readonly errors: readonly CellAddress[];
}

/** Checks the workbook in its current state and makes copies of it. */
export interface WholeWorkbook {
  /** Checks the workbook. Changes nothing. */
  readonly check: (work: Work) => Promise<Checked>;
  /** Makes a copy of the workbook for someone else. The workbook itself is not changed. */
  readonly handOver: (way: Way, work: Work) => Promise<HandedOverFile>;
}
