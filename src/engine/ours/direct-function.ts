import type { FormulaValue } from "../values.js";
import type { ReadArgument } from "./argument.js";

/** A function of ours that is called without a host, with the engine's own values. */
export class DirectFunction {
  /** @param call gets exactly as many arguments as the function declares */
  constructor(readonly call: (given: readonly ReadArgument[]) => FormulaValue | Promise<FormulaValue>) {}
}
