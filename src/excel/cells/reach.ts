/// <reference types="office-js" />
import type { SheetPlace } from "../../cells/place.js";
import { cellAddress } from "../../cells/a1.js";
import type { Report } from "../../pane/ports/formulas-port.js";
import { isPassing, sentenceFor } from "../problem.js";

export type Failed = Report["failed"][number];

export const failed = (place: SheetPlace, why: string): Failed => ({
  sheet: place.sheet,
  address: cellAddress(place.row, place.column),
  why,
});

export const sheetGone = (sheet: string): string => `There is no sheet "${sheet}" in the workbook any more.`;

export const cellProtected = (sheet: string): string =>
  `The sheet "${sheet}" is protected. Take its protection off, then try again.`;

/**
 * Applies an action to many items in one batch. If Excel refuses it, the batch is halved until the refused items are
 * found. What ran before a refusal runs again, so the action must be repeatable.
 *
 * @param refused called with the reason for each item that Excel refuses
 * @throws what Excel reports if it would refuse anything at the moment
 */
export async function reachAll<T>(
  context: Excel.RequestContext,
  things: readonly T[],
  act: (things: readonly T[]) => void,
  refused: (thing: T, why: string) => void,
): Promise<void> {
  const [only] = things;
  if (only === undefined) return;
  try {
    act(things);
    await context.sync();
  } catch (error) {
    if (isPassing(error)) throw error;
    if (things.length === 1) {
      refused(only, sentenceFor(error));
      return;
    }
    const half = Math.ceil(things.length / 2);
    await reachAll(context, things.slice(0, half), act, refused);
    await reachAll(context, things.slice(half), act, refused);
  }
}
