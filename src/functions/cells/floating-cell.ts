import { extractByFloating } from "../../core/instrument/floating.js";
import { sgMarks } from "../../core/instrument/hydrometer.js";
import { floatingOf } from "../../instruments/as-core.js";
import { measurement } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { elementwise } from "../contract/define.js";
import { readSg, scale, writeGravity } from "../arguments/gravity-argument.js";
import { instrument } from "../arguments/instrument-argument.js";
import { needsInstrument } from "../contract/messages.js";

export const FLOATING = elementwise(
  {
    name: "FLOATING",
    topic: "Correct a reading",
    question: "What does my floating hydrometer really mean?",
    summary: "Gravity from a floating digital hydrometer, put right by its calibration against glass.",
    returns: 'Gravity as SG 20/20, or °P if scale is "P".',
    examples: [
      {
        formula: 'GYLE.FLOATING(B2:B200,"Bobber")',
        says: "A logged series by an instrument of this workbook.",
      },
    ],
    method:
      "The least-squares line through the calibration pairs of the profile; one pair gives a shift. It is trusted up to " +
      "0.020 SG (5 °P) beyond the outermost pair. Foam and dry hops tilt a floating hydrometer, and it is less exact than " +
      "glass (common practice, no source): take final values with glass.",
    caution: "Do not decide from this alone that beer is finished and safe to bottle.",
  },
  {
    reading: measurement({
      label: "reading",
      description: "As logged: SG (1.046 or 1046), or in the units of the instrument.",
    }),
    instrument: {
      ...instrument("floating", "Name of a floating hydrometer of this workbook."),
      optional: false,
    },
    scale: scale("How the result is written"),
  },
  ({ reading, instrument, scale }, to) => {
    if (!instrument) throw new CellError("#VALUE!", needsInstrument);
    const own = instrument.scale === "SG" ? readSg(reading, "reading", sgMarks) : reading;
    return writeGravity(extractByFloating(own, floatingOf(instrument), to), scale, to);
  },
);
