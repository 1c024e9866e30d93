import type { CellFunctions } from "../engine/cell-functions.js";
import { recalculate } from "../engine/recalculate.js";
import { wayRound } from "../engine/way-round.js";
import { NAMESPACE } from "../instruments/part.js";
import type { InstrumentSet } from "../instruments/set.js";
import { storedInstruments } from "../instruments/stored.js";
import { WorkbookError } from "../workbook/error.js";
import { openWorkbook, type Workbook } from "../workbook/workbook.js";
import { handedOver } from "./hand-over.js";
import type { Asked } from "./messages.js";
import type { HandOverReport } from "./values.js";

export interface Copy {
  readonly bytes: Uint8Array;
  readonly report: HandOverReport;
}

/** The functions bundle, and how it learns of instruments. */
export interface Calculating {
  readonly functions: CellFunctions;
  readonly useInstruments: (set: InstrumentSet) => void;
}

/**
 * A copy of a workbook for someone else, calculated by the instruments inside it. The workbook itself stays as it is.
 *
 * @throws WorkbookError for a workbook that cannot be handed over
 */
export async function copyOf(
  { bytes, way, date }: Asked,
  { functions, useInstruments }: Calculating,
  onProgress: (done: number, total: number) => void,
): Promise<Copy> {
  const workbook = await openWorkbook(bytes);
  const { model } = workbook;
  const instruments = instrumentsOf(workbook);
  useInstruments(instruments);
  const result = recalculate(model, functions, { onProgress });
  const [loop] = result.loops;
  if (loop) throw new WorkbookError(`has a circular reference: ${wayRound(loop, model)}`);
  const { changes, notes, sheets, report } = handedOver(way, {
    model,
    result,
    functions,
    instruments,
    date,
    onProgress,
  });
  const isChanged = changes.length + sheets.length > 0;
  return { bytes: isChanged ? await workbook.patch(changes, { notes, sheets }) : bytes, report };
}

function instrumentsOf(workbook: Workbook): InstrumentSet {
  const { set, refused } = storedInstruments(workbook.customXml(NAMESPACE).map(({ xml }) => xml));
  if (set) return set;
  const problems = refused.flatMap((part) => part.problems).join(" ");
  throw new WorkbookError(`has instruments that cannot be read: ${problems}`);
}
