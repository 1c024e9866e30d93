import type { Call, Formulas, OurFormula, Work } from "../ports/formulas-port.js";

/** A formula and its call; undefined if it does more than a single call. */
export interface CalledFormula {
  readonly formula: OurFormula;
  readonly call: Call | undefined;
}

/** Formulas read before the page may draw again. */
const AT_A_TIME = 500;

/**
 * Reads the current calls of formulas in batches, so that the page can draw progress and react to a stop.
 *
 * @throws the reason of `work.signal` once it is aborted, and anything that the host rejects with
 */
export async function* calledFormulas(
  host: Formulas,
  formulas: readonly OurFormula[],
  { onProgress, signal }: Work,
): AsyncGenerator<CalledFormula> {
  for (let begin = 0; begin < formulas.length; begin += AT_A_TIME) {
    signal.throwIfAborted();
    onProgress(begin, formulas.length);
    const some = formulas.slice(begin, begin + AT_A_TIME);
    const calls = await host.calls(some);
    for (const [i, formula] of some.entries()) yield { formula, call: calls[i] };
    await new Promise((resolve) => setTimeout(resolve));
  }
}
