import type { FormulaValue } from "../values.js";
import type { ReadArgument } from "./argument.js";

/** A function of ours that is called without a host: it takes and gives what formulas are made of. */
export class DirectFunction {
  /** @param call with no fewer and no more arguments than the function is declared to take */
  constructor(readonly call: (given: readonly ReadArgument[]) => FormulaValue | Promise<FormulaValue>) {}
}
