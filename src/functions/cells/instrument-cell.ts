import { properties, propertyOf } from "../../instruments/properties.js";
import { choice } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { elementwise } from "../contract/define.js";
import { article, readAnyInstrument } from "../arguments/instrument-argument.js";
import { noSuchProperty } from "../contract/messages.js";

export const INSTRUMENT = elementwise(
  {
    name: "INSTRUMENT",
    topic: "Instruments",
    question: "What does this workbook say about an instrument?",
    summary: "What the profile of an instrument says, for printing beside results.",
    returns: "Text, a number, or TRUE and FALSE; blank where nothing was entered.",
    examples: [
      { formula: 'GYLE.INSTRUMENT("Starting glass","SUMMARY")', says: "All that matters, in one line." },
      { formula: 'GYLE.INSTRUMENT("Pocket prism","FACTOR")', says: "The wort correction factor in use." },
    ],
    method: "As entered in the Gylesheet pane. The profile travels inside the workbook.",
  },
  {
    name: {
      label: "instrument",
      description: "Name of an instrument of this workbook.",
      optional: false,
      namesInstrument: true,
      blanks: true,
      read: readAnyInstrument,
    },
    property: choice({
      label: "property",
      description: `One of ${properties.map((property) => `"${property}"`).join(", ")}.`,
      from: properties,
    }),
  },
  ({ name: profile, property }) => {
    if (!profile) return "";
    const value = propertyOf(profile, property);
    if (value === undefined)
      throw new CellError("#N/A", noSuchProperty(profile.name, article(profile.kind), property));
    return value;
  },
);
