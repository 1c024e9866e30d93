/// <reference types="office-js" />
import { today } from "../../handover/today.js";
import { askForCheck, askForCopy } from "../../worker/ask.js";
import type { Way } from "../../handover/way.js";
import type { Work } from "../../pane/ports/formulas-port.js";
import type { Checked, HandedOverFile } from "../../pane/ports/workbook-port.js";
import { HostProblem, inExcel } from "../problem.js";

/** The largest slice that Excel returns. */
const SLICE = 4 * 1024 * 1024;

/** Wraps Office's callback APIs in a promise. */
function asked<T>(ask: (done: (result: Office.AsyncResult<T>) => void) => void): Promise<T> {
  return new Promise((resolve, reject) => {
    ask(({ status, value, error }) => {
      if (status === Office.AsyncResultStatus.Succeeded) resolve(value);
      else reject(new HostProblem(`Excel does not give the workbook as a file: ${error.message}`));
    });
  });
}

/** The open workbook as the file that Excel would save now. */
async function fileOf({ signal }: Work): Promise<Uint8Array> {
  const file = await asked<Office.File>((done) => {
    Office.context.document.getFileAsync(Office.FileType.Compressed, { sliceSize: SLICE }, done);
  });
  try {
    const bytes = new Uint8Array(file.size);
    let at = 0;
    for (let i = 0; i < file.sliceCount; i++) {
      signal.throwIfAborted();
      const slice = await asked<Office.Slice>((done) => {
        file.getSliceAsync(i, done);
      });
      // Declared as any; some hosts return an array of numbers, others bytes.
      const data = slice.data as ArrayLike<number>;
      bytes.set(data, at);
      at += data.length;
    }
    return bytes;
  } finally {
    // Excel keeps at most two open files.
    file.closeAsync();
  }
}

function base64(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => {
      // A data URL; the data starts after the comma.
      resolve((reader.result as string).replace(/^[^,]*,/, ""));
    };
    reader.onerror = () => {
      reject(new HostProblem("The copy could not be read."));
    };
    reader.readAsDataURL(new Blob([bytes]));
  });
}

/** Opens a copy for someone else in a new window. It is not saved anywhere until the user saves it. */
export async function handOver(way: Way, work: Work): Promise<HandedOverFile> {
  const { bytes, ...told } = await askForCopy(
    { bytes: await fileOf(work), way, date: today(new Date()) },
    work,
  );
  const copy = await base64(bytes);
  work.signal.throwIfAborted();
  await inExcel(() => Excel.createWorkbook(copy));
  return { ...told, where: "The copy is open as a workbook of its own. Save it there, and pass it on." };
}

/** Checks the workbook as Excel would save it now. */
export const checkOpenWorkbook = async (work: Work): Promise<Checked> =>
  askForCheck(await fileOf(work), work);
