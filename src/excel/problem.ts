/// <reference types="office-js" />
// What Excel reports, in sentences. Codes: https://learn.microsoft.com/office/dev/add-ins/testing/application-specific-api-error-handling

/** A failure, described in a sentence that says what the user can do about it. */
export class HostProblem extends Error {
  override readonly name = "HostProblem";
}

const tooMuch = "Excel did not take that much at once. Try it with fewer cells.";
const tooOld = "This Excel cannot do that. Update Excel, or open the workbook in Excel on the web.";
const gone =
  "Something that this needs is not in the workbook any more: a sheet, a table or a name may have been deleted or " +
  "renamed. Try again.";

const sentences: Readonly<Record<string, string>> = {
  InvalidOperationInCellEditMode: "A cell is being edited. Finish it with Enter or Esc, then try again.",
  AccessDenied:
    "Excel does not allow this change. The sheet or the workbook may be protected, or opened for reading only.",
  ItemNotFound: gone,
  InvalidReference: gone,
  InvalidSelection: "Select cells in one block, then try again.",
  InvalidArgument: "Excel did not accept the formula or the reference.",
  FormulaLengthExceedsLimit: "The formula would be longer than Excel allows.",
  RequestPayloadSizeLimitExceeded: tooMuch,
  ResponsePayloadSizeLimitExceeded: tooMuch,
  RangeExceedsLimit: tooMuch,
  OperationCellsExceedLimit: tooMuch,
  ApiNotFound: tooOld,
  NotImplemented: tooOld,
  UnsupportedOperation: tooOld,
  ConnectionFailure: "Excel cannot be reached. Check the connection, then try again.",
  InactiveWorkbook: "The workbook has been closed.",
};

/** Errors caused by the current state of Excel, not by the cells requested. */
const passing = new Set([
  "InvalidOperationInCellEditMode",
  "ConnectionFailure",
  "InactiveWorkbook",
  "RequestAborted",
]);
const oversize = new Set(
  Object.entries(sentences).flatMap(([code, sentence]) => (sentence === tooMuch ? [code] : [])),
);

/** Excel's error code, or undefined for other errors. */
function codeOf(error: unknown): string | undefined {
  const code = typeof error === "object" && error !== null && "code" in error ? error.code : undefined;
  return typeof code === "string" ? code : undefined;
}

/** Whether the same request could succeed later. */
export const isPassing = (error: unknown): boolean => passing.has(codeOf(error) ?? "");

/** Whether a smaller request could succeed. */
export const isTooMuch = (error: unknown): boolean => oversize.has(codeOf(error) ?? "");

/** A sentence for an error from Excel; for any other error, its own message. */
export function sentenceFor(error: unknown): string {
  const code = codeOf(error);
  if (code !== undefined)
    return (
      sentences[code] ??
      `Excel reported "${code}". Try again; if it stays, save the workbook and open it anew.`
    );
  return error instanceof Error ? error.message : String(error);
}

/**
 * Runs work on the workbook.
 *
 * @param options whether to wait while the user edits a cell; otherwise it fails in that case
 * @throws HostProblem for anything that Excel reports; other errors, such as the reason of an abort, unchanged
 */
export async function inExcel<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
  options: Excel.RunOptions = {},
): Promise<T> {
  try {
    return await Excel.run(options, batch);
  } catch (error) {
    throw codeOf(error) === undefined ? error : new HostProblem(sentenceFor(error), { cause: error });
  }
}
