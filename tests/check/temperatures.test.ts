import { expect, test } from "vitest";
import { checkWorkbook } from "../../src/check/check.js";
import { Book } from "../../src/engine/references/book.js";
import type { InstrumentSet } from "../../src/instruments/set.js";
import type { CellValue, WorkbookModel } from "../../src/workbook/model.js";

const hydrometer = {
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  read: "level",
} as const;
const refractometer = { kind: "refractometer", scale: "BX", temperatureUnit: "C", wortFactor: 1.04 } as const;
/** Of an invented brewery. */
const instruments: InstrumentSet = {
  version: 1,
  instruments: [
    { ...hydrometer, name: "Old sixty", temperatureUnit: "F", calibrationTemperature: 60 },
    { ...refractometer, name: "Pocket prism", compensates: true },
    { ...refractometer, name: "Brass prism", compensates: false },
  ],
};

/** Temperatures that look as if they were in the other unit, where a formula a line reads column A at column B. */
function doubted(call: string, temperatures: readonly number[], reading = 1.05): string[] {
  const model: WorkbookModel = {
    sheets: [
      {
        name: "Log",
        cells: temperatures.flatMap((temperature, row) => {
          const text = call.replaceAll("#", String(row + 1));
          const cell = (column: number, value: CellValue) => ({ row, column, value });
          return [
            cell(0, reading),
            cell(1, temperature),
            { ...cell(2, 1), formula: { text, kind: "plain" } as const },
          ];
        }),
      },
    ],
    names: [],
    tables: [],
    iterates: false,
  };
  const result = {
    book: new Book(model),
    changes: [],
    counts: { recalculated: 0, changed: 0 },
    errors: [],
    notes: [],
    cutOff: [],
    cycles: [],
  };
  return checkWorkbook({ model, result, instruments })
    .findings.filter(({ severity }) => severity === "doubt")
    .flatMap(({ kind, cells }) => cells.map((cell) => `${kind} ${cell}`));
}

const glass = "_xldudf_GYLE_HYDROMETER(A#,B#)";

test.each([
  ["one among cool ones, as cool in °F", glass, [20, 19, 68, 21, 20], ["fahrenheit-like B3"]],
  ["a whole column of rooms in °F", glass, [68, 66, 70, 72, 68], ["fahrenheit-like B1:B5"]],
  [
    "finished beer, though it is the only one",
    "_xldudf_GYLE_SEASON(A#,20,A#,B#)",
    [66],
    ["fahrenheit-like B1"],
  ],
  [
    "beer on a prism that does not compensate",
    '_xldudf_GYLE_REFRACTOMETER_BEER(A#,12,B#,"Brass prism")',
    [64],
    ["fahrenheit-like B1"],
  ],
  [
    "ice, by a thermometer in °F",
    '_xldudf_GYLE_HYDROMETER(A#,B#,"old SIXTY")',
    [68, 21, 66],
    ["celsius-like B2"],
  ],
  [
    "a whole column of rooms in °C",
    '_xldudf_GYLE_HYDROMETER(A#,B#,"Old sixty")',
    [20, 21, 18],
    ["celsius-like B1:B3"],
  ],
] as const)("doubted: %s", (_, call, temperatures, expected) => {
  expect(doubted(call, temperatures)).toEqual(expected);
});

test.each([
  ["rooms and cellars in °C", glass, [20, 18.5, 12, 4, 30, 1]],
  ["hot wort, where others are as hot", glass, [62, 71, 66, 78]],
  ["hot wort alone", glass, [65]],
  ["hot wort among cool ones that would be no room in °F", glass, [20, 20, 20, 48]],
  ["rooms and cellars in °F", '_xldudf_GYLE_HYDROMETER(A#,B#,"Old sixty")', [68, 59, 40, 34, 150]],
  [
    "hot wort on a prism that compensates",
    '_xldudf_GYLE_REFRACTOMETER_WORT(A#,B#,"Pocket prism")',
    [70, 68, 69, 70, 68],
  ],
  [
    "hot wort on a prism of which nothing is said",
    "_xldudf_GYLE_REFRACTOMETER_WORT(A#,B#)",
    [20, 20, 20, 68],
  ],
  ["what an unknown instrument was read at", '_xldudf_GYLE_HYDROMETER(A#,B#,"Lost")', [20, 20, 20, 68]],
  ["a kettle", "_xldudf_GYLE_VOLUME_COOLED(A#,B#)", [20, 20, 20, 68, 98]],
] as const)("not doubted: %s", (_, call, temperatures) => {
  expect(doubted(call, temperatures)).toEqual([]);
});
