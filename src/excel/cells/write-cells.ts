/// <reference types="office-js" />
import type { SheetPlace } from "../../cells/place.js";
import { cellProtected, failed, reachAll, type Failed } from "./reach.js";
import type { WorkbookNames } from "./workbook-names.js";

/** What to write to a cell: a formula with "=", or a text. */
export type CellWrite = SheetPlace & ({ readonly formula: string } | { readonly text: string });

/** Cells written per batch. */
const BATCH_SIZE = 200;

/** A text in the form that keeps Excel from reading it as a number, a date, a boolean or a formula. */
function asText(text: string): string {
  const plain = /^\p{L}[^\d]*$/u.test(text) && !/^(?:true|false)$/i.test(text);
  return plain ? text : `'${text}`;
}

/**
 * Writes single cells. A formula that spills keeps spilling, because it is written to its own cell.
 *
 * @returns the cells that could not be written, and why
 * @throws the signal's reason, between two batches
 */
export async function writeCells(
  context: Excel.RequestContext,
  names: WorkbookNames,
  writes: readonly CellWrite[],
  signal: AbortSignal,
  onProgress: (done: number) => void = () => undefined,
): Promise<Failed[]> {
  const failures: Failed[] = [];
  const cellOf = ({ sheet, row, column }: SheetPlace): Excel.Range =>
    context.workbook.worksheets.getItem(sheet).getCell(row, column);
  for (let i = 0; i < writes.length; i += BATCH_SIZE) {
    signal.throwIfAborted();
    const piece = writes.slice(i, i + BATCH_SIZE);
    const locks = piece.map((write) => {
      if (names.sheetInfo(write.sheet)?.isProtected !== true) return { write };
      const { protection } = cellOf(write).format;
      protection.load("locked");
      return { write, protection };
    });
    await context.sync();
    const open = locks.flatMap(({ write, protection }) => (protection?.locked === true ? [] : [write]));
    for (const { write } of locks)
      if (!open.includes(write)) failures.push(failed(write, cellProtected(write.sheet)));
    await reachAll(
      context,
      open,
      (some) => {
        for (const write of some) {
          if ("formula" in write) cellOf(write).formulas = [[write.formula]];
          else cellOf(write).values = [[asText(write.text)]];
        }
      },
      (write, why) => failures.push(failed(write, why)),
    );
    onProgress(Math.min(i + BATCH_SIZE, writes.length));
  }
  return failures;
}
