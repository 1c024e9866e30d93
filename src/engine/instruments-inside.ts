import { partNamespace } from "../instruments/part.js";
import type { InstrumentSet } from "../instruments/set.js";
import { storedInstruments } from "../instruments/stored.js";
import { WorkbookError } from "../workbook/error.js";
import type { Workbook } from "../workbook/workbook.js";

/** What a host does about instruments that cannot be read. */
interface Otherwise {
  /** Replacement; without it the workbook is refused. */
  readonly instead?: InstrumentSet | undefined;
  /** What the user can do. */
  readonly advice?: string;
}

/**
 * The instruments inside a workbook.
 *
 * @throws WorkbookError if they cannot be read: they stay as they are
 */
export function instrumentsInside(workbook: Workbook, { instead, advice }: Otherwise = {}): InstrumentSet {
  const { set = instead, refused } = storedInstruments(
    workbook.customXml(partNamespace).map(({ xml }) => xml),
  );
  if (set) return set;
  const problems = refused.flatMap((part) => part.problems);
  throw new WorkbookError(
    ["has instruments that cannot be read:", ...problems, ...(advice === undefined ? [] : [advice])].join(
      " ",
    ),
  );
}
