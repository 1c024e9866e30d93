import { beforeAll, describe, expect, test } from "vitest";
import { catalogue } from "../../../src/functions/catalogue.js";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { cells, column, error, errorText } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";

beforeAll(() => {
  useInstruments(instruments);
});

const said = (name: string, ...args: readonly unknown[]): string[] =>
  cells(name, ...args)
    .flat()
    .map((each) => (typeof each === "number" ? "number" : each === "" ? "blank" : errorText(each)));

const unnamed = expect.stringMatching(
  /^#VALUE! The instrument of this row is empty, but other rows name one\. Name it in every row, or in none\.$/,
) as string;

const blanks = [null, undefined, "", "  ", 0, -0];

describe("an empty cell in a range of which others name an instrument", () => {
  test.each(blanks)("(%j) is an error in its row, and no plain glass", (blank) => {
    const names = column("Starting glass", blank, "Old sixty");
    expect(said("HYDROMETER", column(1.05, 1.05, 1.05), column(25, 25, 77), names)).toEqual([
      "number",
      unnamed,
      "number",
    ]);
    expect(said("PLUSMINUS.HYDROMETER", column(12, 1.05), 25, column("Plato spindle", blank))).toEqual([
      "number",
      unnamed,
    ]);
    const prisms = column("Pocket prism", blank);
    expect(said("REFRACTOMETER.WORT", column(12, 12), null, prisms)).toEqual(["number", unnamed]);
    expect(said("REFRACTOMETER.BEER", column(6.4, 6.4), 1.048, null, prisms)).toEqual(["number", unnamed]);
    expect(said("ORIGINAL", column(1.012, 1.012), 6.4, prisms)).toEqual(["number", unnamed]);
    expect(said("FLOATING", column(1.03, 1.03), column("Bobber", blank))).toEqual(["number", unnamed]);
    expect(said("CALIBRATE.FACTOR", column(10.3, 12.4), column(1.04, 1.048), prisms)).toEqual([
      "number",
      unnamed,
    ]);
  });

  test.each(blanks)("(%j) leaves a blank row blank", (blank) => {
    expect(
      said("HYDROMETER", column(1.05, blank), column(25, blank), column("Starting glass", blank)),
    ).toEqual(["number", "blank"]);
  });

  test.each(blanks)("(%j) is no error where no cell names one", (blank) => {
    expect(said("HYDROMETER", column(1.05, 1.05), column(25, 25), column(blank, blank))).toEqual([
      "number",
      "number",
    ]);
    expect(said("HYDROMETER", column(1.05, 1.05), 25, blank)).toEqual(["number", "number"]);
  });

  test("is one in a row of cells and in a grid as well", () => {
    expect(said("HYDROMETER", 1.05, 25, [["Starting glass", ""]])).toEqual(["number", unnamed]);
    expect(said("HYDROMETER", column(1.05, 1.06), 25, [["Starting glass", ""]])).toEqual([
      "number",
      unnamed,
      "number",
      unnamed,
    ]);
  });

  test("is one among units of which others are named", () => {
    expect(said("VOLUME.COOLED", column(30, 30), column(200, 90), null, column("F", ""))).toEqual([
      "number",
      expect.stringMatching(/unit of this row is empty/),
    ]);
    expect(said("CO2.LATENT", column(1.014, 1.014), 1.01, column("VOL", 0))).toEqual([
      "number",
      expect.stringMatching(/unit of this row is empty/),
    ]);
    expect(said("EXTRACT.MASS", column(1, 1), 1.05, column("gal", ""), "kg")).toEqual([
      "number",
      expect.stringMatching(/volume unit of this row is empty/),
    ]);
  });
});

describe("SEASON", () => {
  test.each(blanks)("says so in the row of the empty cell (%j), for either instrument", (blank) => {
    const [og, tC, fg] = [column(1.05, 1.05, blank), column(20, 20, blank), column(1.012, 1.012, blank)];
    const first = cells("SEASON", og, tC, fg, tC, column("Starting glass", blank, blank), "Finishing glass");
    expect(first.map((row) => row.map((each) => errorText(each).slice(0, 7)))).toEqual([
      Array(5).fill("no erro"),
      ["#VALUE!", "no erro", "no erro", "no erro", "no erro"],
      Array(5).fill("no erro"),
    ]);
    expect(errorText(first[1]?.[0])).toEqual(unnamed);
    expect(first[2]).toEqual(["", "", "", "", ""]);
    const final = cells("SEASON", og, tC, fg, tC, "Starting glass", column("Finishing glass", blank, blank));
    expect(errorText(final[1]?.[1])).toEqual(unnamed);
    expect(final[1]?.[0]).toBeTypeOf("number");
    expect(final[2]).toEqual(["", "", "", "", ""]);
  });

  test("takes the first instrument for the final reading where the second is left out, also as 0", () => {
    for (const blank of blanks)
      expect(errorText(cells("SEASON", 1.05, 20, 1.009, 20, "Starting glass", blank)[0]?.[1])).toMatch(
        /graduated/,
      );
  });
});

test("holds for every argument that names an instrument", () => {
  for (const { name, parameters } of catalogue)
    for (const each of parameters.filter(({ namesInstrument }) => namesInstrument))
      expect([name, each.namedThroughout]).toEqual([name, name !== "INSTRUMENT"]);
  expect(error("INSTRUMENT", "Bobber", "FACTOR")).toMatch(/has no "FACTOR"/);
});
