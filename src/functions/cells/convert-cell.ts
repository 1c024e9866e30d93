import { gravityRange, TABLE_114 } from "../../core/liquid/gravity.js";
import { extractFrom, extractTo, scales, scaleUnits } from "../../core/liquid/scales.js";
import { step } from "../../core/steps.js";
import { measurement, choice } from "../contract/argument.js";
import { elementwise } from "../contract/define.js";
import { readSg } from "../arguments/gravity-argument.js";

const codes = '"SG", "P", "BX", "PTS", "SG60" or "KGM3"';

export const CONVERT = elementwise(
  {
    name: "CONVERT",
    topic: "Correct a reading",
    question: "What is this gravity in SG, °P, °Bx, points or kg/m³?",
    summary: "A gravity on another scale: SG, °P, °Bx, points, SG 60/60 °F or kg/m³.",
    returns: "The same wort on the other scale.",
    examples: [
      { formula: 'GYLE.CONVERT(12,"P","SG")', says: "12 °P as SG 20/20." },
      { formula: 'GYLE.CONVERT(48,"PTS","P")', says: "48 points (1.048) as °P." },
    ],
    method:
      "SG is apparent specific gravity 20 °C/20 °C. °P and °Bx are both percent of sucrose by mass, the same number. PTS: " +
      "1000·(SG − 1). SG60: apparent, 60 °F/60 °F. KGM3: density in vacuo at 20 °C. Through NBS Circular C440, Table 114, within 1e-5 " +
      "of print from 0 to 30 °P, and smoothly on to −4 °P. A refractometer's °Bx of wort is not its °P: use REFRACTOMETER.WORT. " +
      "0 counts as an empty cell.",
  },
  {
    value: measurement({
      label: "value",
      description: "The gravity, in the units of from; −4 to 30 °P in all.",
    }),
    from: choice({
      label: "scale to convert from",
      description: `Scale of the value: ${codes}.`,
      from: scales,
    }),
    to: choice({ label: "scale to convert to", description: `Scale of the result: ${codes}.`, from: scales }),
  },
  ({ value, from, to }, listener) => {
    const given = from === "SG" ? readSg(value, "value", gravityRange) : value;
    const extract = step(listener, "extract", extractFrom(given, from), "°P", TABLE_114);
    return step(listener, "on the other scale", extractTo(extract, to), scaleUnits[to], TABLE_114);
  },
);
