// Entry of the functions bundle as Excel loads it: a classic script that associates all functions at once.
/// <reference types="custom-functions-runtime" />
import { call } from "../functions/contract/call.js";
import { catalogue } from "../functions/catalogue.js";
import { CellError, type ErrorCode, type Result } from "../functions/contract/cell-value.js";

// For the host's own script, as members of the global `Gylesheet`: it passes the workbook's instruments, and its pane
// lists and tries the functions with the same code.
export {
  instrumentsInVain,
  refuseInstruments,
  useInstruments,
} from "../functions/contract/instruments-port.js";
export { evaluate } from "../functions/evaluate.js";
export { explain } from "../functions/explain.js";
export { resultAt as at, resultShape as shape } from "../functions/one-cell.js";
export { course } from "../functions/fermentation-course.js";
export { sentence, textNotNumber } from "../functions/contract/messages.js";
export { plusMinus } from "../functions/uncertainty.js";
export { catalogue as functions };
export { NAMESPACE as namespace } from "../functions/contract/function-spec.js";

const hostCode: Record<ErrorCode, keyof typeof CustomFunctions.ErrorCode> = {
  "#VALUE!": "invalidValue",
  "#N/A": "notAvailable",
  "#DIV/0!": "divisionByZero",
  "#NUM!": "invalidNumber",
  "#NULL!": "nullReference",
};

type HostResult = Exclude<Result, CellError> | CustomFunctions.Error;

// CustomFunctions.Error and ErrorCode exist only after the host's own file has loaded, so they must not be used before
// a call.
function toHost(result: Result): HostResult {
  if (!(result instanceof CellError)) return result;
  const code = CustomFunctions.ErrorCode[hostCode[result.code]];
  return result.message === ""
    ? new CustomFunctions.Error(code)
    : new CustomFunctions.Error(code, result.message);
}

const cells = (results: Result[][]): HostResult[][] => results.map((row) => row.map(toHost));

for (const spec of catalogue)
  CustomFunctions.associate(spec.name, (...args: unknown[]) => {
    const results = call(spec, args);
    return results instanceof Promise ? results.then(cells) : cells(results);
  });
