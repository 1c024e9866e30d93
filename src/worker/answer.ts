import { checkWorkbook } from "../check/check.js";
import { instrumentsInside } from "../engine/instruments-inside.js";
import { catalogueFunctions } from "../engine/ours/catalogue-functions.js";
import { recalculate } from "../engine/recalculate.js";
import { refuseCircularReferences, refuseOnlyCircularReferences } from "../engine/circular-references.js";
import { useInstruments } from "../functions/contract/instruments-port.js";
import { handedOver } from "../handover/hand-over.js";
import { openWorkbook } from "../workbook/workbook.js";
import type { WorkerResponse, WorkerRequest } from "./messages.js";

/**
 * Answers a request about a workbook, calculated with the instruments inside it. The workbook itself is not changed.
 *
 * @throws WorkbookError if the workbook does not allow it
 */
export async function answer(
  asked: WorkerRequest,
  onProgress: (done: number, total: number) => void,
): Promise<WorkerResponse> {
  const workbook = await openWorkbook(asked.bytes);
  const { model } = workbook;
  const instruments = instrumentsInside(workbook);
  useInstruments(instruments);
  const functions = catalogueFunctions();
  const result = recalculate(model, functions, { onProgress });
  (asked.wants === "check" ? refuseOnlyCircularReferences : refuseCircularReferences)(result);
  if (asked.wants === "check") return { is: "check", check: checkWorkbook({ model, result, instruments }) };
  const { bytes, way, date } = asked;
  const given = { model, result, functions, instruments, date, onProgress };
  const { changes, notes, sheets, report } = handedOver(way, given);
  const isChanged = changes.length + sheets.length > 0;
  const copy = isChanged ? await workbook.patch(changes, { notes, sheets }) : bytes;
  return { is: "copy", bytes: copy, report };
}
