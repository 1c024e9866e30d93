// The port through which a host provides the workbook's instruments to the functions.
import type { InstrumentSet } from "../../instruments/set.js";

/** How long a cell waits for a host that is still reading the workbook. */
export const TIME_LIMIT_MS = 10_000;

let known: InstrumentSet | undefined;
let refusal: string | undefined;
let missed = false;
let inVain: Set<string> | undefined;
const none: readonly string[] = [];
let arrived: () => void = () => undefined;
const arrival = new Promise<void>((resolve) => {
  arrived = resolve;
});

/**
 * Called by the host when it has read the instruments, and again whenever they change.
 *
 * @returns whether cells have meanwhile been told that there are none, so that they have to be recalculated
 */
export function useInstruments(set: InstrumentSet): boolean {
  const cellsGaveUp = missed;
  known = set;
  refusal = undefined;
  missed = false;
  arrived();
  return cellsGaveUp;
}

/** Called by the host if the workbook has instruments that cannot be read. @param why a sentence for a cell */
export function refuseInstruments(why: string): void {
  known = undefined;
  refusal = why;
  arrived();
}

/** A cell needs an instrument and there are none. @returns the reason, as far as the host has given one */
export function missInstruments(): string | undefined {
  missed = true;
  return refusal;
}

/** A cell names an instrument that does not exist. */
export function seekInVain(name: string): void {
  inVain?.add(name);
}

/**
 * Names of instruments that cells have looked for in vain since the last call. A host that never asks pays nothing for
 * it; one that asks before and after a calculation learns whether an instrument was missing, whatever became of the
 * error.
 */
export function instrumentsInVain(): readonly string[] {
  if (inVain?.size === 0) return none;
  const names = [...(inVain ?? none)];
  inVain = new Set();
  return names;
}

/** Calculates as if the workbook had these instruments. */
export function withInstruments<T>(set: InstrumentSet, calculate: () => T): T {
  const before = known;
  known = set;
  try {
    return calculate();
  } finally {
    known = before;
  }
}

/** The instruments, or undefined until the host has provided them. */
export function instruments(): InstrumentSet | undefined {
  return known;
}

/** Whether the host has yet to say which instruments there are, or why there are none. */
export const areInstrumentsDue = (): boolean => known === undefined && refusal === undefined;

/** Settles when the instruments arrive or the time is up; at once if there is no clock to wait by. */
export async function instrumentsOrTimeout(): Promise<void> {
  if (known !== undefined || typeof setTimeout === "undefined") return;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const timeUp = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, TIME_LIMIT_MS);
  });
  await Promise.race([arrival, timeUp]);
  clearTimeout(timer);
}
