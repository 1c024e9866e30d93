import { catalogue } from "../../src/functions/catalogue.js";
import { evaluate } from "../../src/functions/evaluate.js";
import { explain } from "../../src/functions/explain.js";
import { course } from "../../src/functions/fermentation-course.js";
import { resultAt, resultShape } from "../../src/functions/one-cell.js";
import { explainedCalls } from "../../src/pane/cell/explained-call.js";
import type { FunctionsPort } from "../../src/pane/ports/functions-port.js";
import type { InnerCall } from "../../src/pane/ports/selection-port.js";
import { instruments } from "../support/instruments.js";

const ROWS = 10_000;
const RUNS = 15;

const column = (value: (row: number) => number): number[][] =>
  Array.from({ length: ROWS }, (_, row) => [value(row)]);

const readings = column((row) => 1.04 + (row % 50) / 1000);
const temperatures = column((row) => 15 + (row % 10));
const finals = column(() => 1.01);

const formulas: Readonly<Record<string, readonly InnerCall[]>> = {
  HYDROMETER: [{ name: "HYDROMETER", args: [readings, temperatures, [["Starting glass"]]], isWhole: true }],
  SEASON: [{ name: "SEASON", args: [readings, temperatures, finals, temperatures], isWhole: true }],
  "ABV of HYDROMETER": [
    { name: "HYDROMETER", args: [readings, temperatures], isWhole: false },
    { name: "ABV", args: [{ call: 0 }, finals], isWhole: true },
  ],
};

const functions = {
  list: catalogue,
  evaluate,
  explain,
  course,
  shape: resultShape,
  at: resultAt,
} satisfies Partial<FunctionsPort> as unknown as FunctionsPort;

/** How long it takes to explain one cell in the middle of what a formula fills. */
export function explainTimes(): string[] {
  return Object.entries(formulas).map(([name, calls]) => {
    const times = Array.from({ length: RUNS }, () => {
      const begun = performance.now();
      explainedCalls(
        { sheet: "Log", address: "D5001", formula: "", value: 0, row: ROWS / 2, column: 0, calls },
        functions,
        instruments,
      );
      return performance.now() - begun;
    }).sort((a, b) => a - b);
    return `${name}: ${(times[Math.floor(RUNS / 2)] ?? 0).toFixed(1)} ms (median of ${RUNS})`;
  });
}
