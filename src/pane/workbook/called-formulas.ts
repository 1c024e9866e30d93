import type { Call, Formulas, OurFormula, Work } from "../ports/formulas-port.js";

/** A formula, and the call that it is; undefined where it calculates more than a single one. */
export interface CalledFormula {
  readonly formula: OurFormula;
  readonly call: Call | undefined;
}

/** So many formulas are looked at before the page may move again. */
const AT_A_TIME = 500;

/**
 * Goes through what formulas calculate now, a piece at a time, so that the page can draw its progress and hear of a stop.
 *
 * @throws the reason of `work.signal` once it is stopped, and whatever the host rejects with
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
