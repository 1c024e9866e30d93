import { describe, expect, test } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import { topics } from "../../src/functions/contract/function-spec.js";
import { metadata } from "../../src/functions/metadata.js";

// Pinned: what users have typed into their workbooks. Ids and names never change, new arguments go to the end. A wanted
// change is written by "npx vitest run tests/functions -u" and belongs into the changelog.
test("names and the order of arguments change only on purpose", async () => {
  const typed = catalogue.map(({ name, parameters }) => [name, parameters.map((each) => each.name)] as const);
  await expect(JSON.stringify(Object.fromEntries(typed), null, 2)).toMatchFileSnapshot(
    "functions.pinned.json",
  );
});

// So ranges, blanks, text and errors reach the functions untouched, and a range in gives a range out.
test("Excel hands over any cells to every argument, and may leave out the optional ones", () => {
  const any = { type: "any", dimensionality: "matrix" };
  const { functions, ...rest } = metadata("https://localhost:3000") as { functions: { name: string }[] };
  expect(rest).toEqual({ allowErrorForDataTypeAny: true });
  expect(functions.map(({ name }) => name)).toEqual(catalogue.map(({ name }) => name));
  for (const [i, { name, parameters }] of catalogue.entries())
    expect(functions[i]).toMatchObject({
      id: name,
      helpUrl: `https://localhost:3000/help/${name.toLowerCase()}.html`,
      parameters: parameters.map(({ optional }) => (optional ? { ...any, optional } : any)),
      result: any,
    });
});

describe("a name that Excel accepts", () => {
  for (const { name, parameters } of catalogue)
    test(name, () => {
      expect(name).toMatch(/^[A-Z][A-Z0-9_.]{2,127}$/);
      expect(`GYLE.${name}`).not.toMatch(/^[A-Z]{1,3}\d+$|^R\d*C\d*$/); // no cell address
      expect(name).not.toMatch(/^(RUN|ECHO)$/);
      expect(parameters.length).toBeGreaterThan(0);
    });
});

test("optional arguments come last", () => {
  for (const { name, parameters } of catalogue) {
    const firstOptional = parameters.findIndex(({ optional }) => optional);
    const required =
      firstOptional < 0 ? [] : parameters.slice(firstOptional).filter(({ optional }) => !optional);
    expect([name, required]).toEqual([name, []]);
  }
});

test("descriptions fit into the formula bar", () => {
  for (const spec of catalogue)
    for (const text of [spec.summary, ...spec.parameters.map(({ description }) => description)])
      expect(text.length).toBeLessThanOrEqual(250);
});

test("every function has its topic, and an example that calls it", () => {
  for (const spec of catalogue) {
    expect(topics).toContain(spec.topic);
    expect(spec.examples.some(({ formula }) => formula.startsWith(`GYLE.${spec.name}(`))).toBe(true);
  }
});

test("what could end on a label, under pressure or in hot wort carries a caution", () => {
  for (const name of [
    "ABV",
    "ABW",
    "SEASON",
    "ORIGINAL",
    "ENERGY",
    "FINAL.EXPECTED",
    "CO2.LATENT",
    "PLUSMINUS.ABV",
    "REFRACTOMETER.BEER",
    "FLOATING",
    "HYDROMETER",
    "VOLUME.COOLED",
    "BOIL.GRAVITY",
    "FERMENT.SMOOTH",
    "FERMENT.RATE",
    "FERMENT.REACHES",
    "FERMENT.STEADY",
    "FERMENT.STAGES",
  ])
    expect(catalogue.find((spec) => spec.name === name)?.caution?.length).toBeGreaterThan(20);
});

test("what tells of a fermentation's end says that it is no word on bottling", () => {
  for (const { name, caution } of catalogue.filter(({ topic }) => topic === "Fermentation"))
    expect([name, caution]).toEqual([name, expect.stringMatching(/never says that beer is safe to bottle/)]);
});
