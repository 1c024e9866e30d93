import { explain } from "../functions/explain.js";
import { NAMESPACE, type FunctionSpec } from "../functions/function-spec.js";
import type { WorkedExample } from "../functions/help-page.js";
import { catalogue } from "../functions/catalogue.js";
import { ownFunctions } from "../formulas/own-calls.js";
import { singleCall } from "../formulas/single-call.js";
import { noInstruments } from "../instruments/set.js";

const functions = ownFunctions(NAMESPACE, catalogue);

/**
 * The first example of a function that can be worked out without a workbook, with the steps that the calculation tells.
 *
 * @returns undefined where every example takes cells or an instrument
 */
export function workedExample({ examples }: FunctionSpec): WorkedExample | undefined {
  for (const { formula } of examples) {
    const call = singleCall(`=${formula}`, functions);
    if (!call || call.args.some((argument) => argument && "reference" in argument)) continue;
    const args = call.args.map((argument) => (argument && "value" in argument ? argument.value : undefined));
    const explanation = explain(call.name, args, 0, 0, noInstruments);
    if (typeof explanation.result === "number" && explanation.steps.length > 0)
      return { formula, steps: explanation.steps, plusMinus: explanation.sureness?.plusMinus };
  }
  return undefined;
}
