import { cooledVolume } from "../../core/brewhouse/cooling.js";
import { celsius, type TemperatureUnit } from "../../core/liquid/temperature.js";
import { HOT } from "../arguments/amount-arguments.js";
import { companion, measurement, optionalNumber, unitOr } from "../contract/argument.js";
import { elementwise } from "../contract/define.js";

export const VOLUME_COOLED = elementwise(
  {
    name: "VOLUME.COOLED",
    topic: "Mash and kettle",
    question: "How much will this hot wort be when it is cool?",
    summary: "Volume of hot wort once it has cooled to 20 °C.",
    returns: "Volume, in the unit it was given in.",
    examples: [
      { formula: "GYLE.VOLUME.COOLED(31.5,98)", says: "A kettle volume near the boil: about 30.3." },
      { formula: 'GYLE.VOLUME.COOLED(8.5,205,68,"F")', says: "The same with temperatures in °F." },
    ],
    method:
      "Expansion of wort of 12 °P by the ICUMSA form of the sucrose density, 0 to 100 °C; from 0 to 20 °P the answer differs " +
      "by less than 0.2 %. What evaporates or stays behind in the trub is not counted.",
    caution: HOT,
  },
  {
    volume: measurement({ label: "volume", description: "Volume as measured, in any unit." }),
    temperature: companion({
      label: "temperature",
      description: "Of the wort, 0 to 100 °C, or °F (see unit).",
      beside: "volume",
      small: "0.1",
      really: "the wort really was at 0°",
    }),
    to: optionalNumber({
      label: "temperature to cool to",
      description: "Where it cools to, in the same unit. If omitted, 20 °C.",
    }),
    unit: unitOr<TemperatureUnit>("C", {
      label: "unit",
      description: 'Unit of both temperatures: "C" (if omitted) or "F".',
      from: ["C", "F"],
    }),
  },
  ({ volume, temperature, to, unit }, listener) =>
    cooledVolume(volume, celsius(temperature, unit), to === undefined ? 20 : celsius(to, unit), listener),
);
