import { ownFunctions, type OwnFunctions } from "../../src/formulas/own-calls.js";

const parameters = (...naming: boolean[]) => naming.map((namesInstrument) => ({ namesInstrument }));

/** A few functions as the catalogue declares them: which of their parameters name an instrument. */
export const functions: OwnFunctions = ownFunctions("GYLE", [
  { name: "ABV", parameters: parameters(false, false, false, false) },
  { name: "CONVERT", parameters: parameters(false, false, false) },
  { name: "HYDROMETER", parameters: parameters(false, false, true, false) },
  { name: "REFRACTOMETER.BEER", parameters: parameters(false, false, false, true, false) },
  { name: "SEASON", parameters: parameters(false, false, false, false, true, true) },
  { name: "INSTRUMENT", parameters: parameters(true, false) },
]);
