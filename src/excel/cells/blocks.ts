/// <reference types="office-js" />
import type { SheetArea } from "../../cells/area.js";
import { isTooMuch } from "../problem.js";

/** Cells per read. A response must also stay under 5 MB, so the number is halved if texts are long. */
const CELLS_AT_ONCE = 20_000;

/** Some rows of an area, loaded. */
export interface Block {
  readonly top: number;
  readonly left: number;
  readonly range: Excel.Range;
}

export const cellCount = ({ top, left, bottom, right }: SheetArea): number =>
  (bottom - top + 1) * (right - left + 1);

/** Lets the page draw and respond before the next piece of work. */
function yieldToPage(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve);
  });
}

/**
 * Reads an area of any size in blocks.
 *
 * @param properties to load, such as "formulas,values"
 * @throws the signal's reason, between two blocks
 */
export async function* blocks(
  context: Excel.RequestContext,
  area: SheetArea,
  properties: string,
  signal?: AbortSignal,
): AsyncGenerator<Block, void, undefined> {
  const width = area.right - area.left + 1;
  let height = Math.max(1, Math.floor(CELLS_AT_ONCE / width));
  let { top } = area;
  while (top <= area.bottom) {
    signal?.throwIfAborted();
    const rows = Math.min(height, area.bottom - top + 1);
    const sheet = context.workbook.worksheets.getItem(area.sheet);
    const range = sheet.getRangeByIndexes(top, area.left, rows, width);
    range.load(properties);
    try {
      await context.sync();
    } catch (error) {
      if (!isTooMuch(error) || rows === 1) throw error;
      height = Math.ceil(rows / 2);
      continue;
    }
    yield { top, left: area.left, range };
    top += rows;
    await yieldToPage();
  }
}
