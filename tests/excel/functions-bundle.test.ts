import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";

const dist = (file: string): string => readFileSync(new URL(`../../dist/${file}`, import.meta.url), "utf8");

const script = dist("functions.js");
const metadata = JSON.parse(dist("functions.json")) as { functions: { id: string }[] };

type Associated = (...args: unknown[]) => unknown;

class HostError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

/** A page in which there is nothing but CustomFunctions, and of that at first nothing but associate. */
function load() {
  const associated = new Map<string, Associated>();
  const CustomFunctions: Record<string, unknown> = {
    associate: (id: string, f: Associated) => associated.set(id, f),
  };
  const page = createContext({ CustomFunctions });
  runInContext(script, page);
  Object.assign(CustomFunctions, {
    Error: HostError,
    ErrorCode: {
      invalidValue: "#VALUE!",
      notAvailable: "#N/A",
      divisionByZero: "#DIV/0!",
      invalidNumber: "#NUM!",
      nullReference: "#NULL!",
    },
  });
  return { associated, page };
}

test("metadata ids and associations are the same set", () => {
  const ids = metadata.functions.map(({ id }) => id);
  expect([...load().associated.keys()].sort()).toEqual([...ids].sort());
  expect(new Set(ids).size).toBe(ids.length);
});

test("the metadata lets error cells in and asks for matrices", () => {
  expect(metadata).toMatchObject({ allowErrorForDataTypeAny: true });
  for (const entry of metadata.functions)
    expect(entry).toMatchObject({
      result: { dimensionality: "matrix" },
      helpUrl: expect.stringMatching(/^https:/) as string,
    });
});

describe("the bundle", () => {
  test("adds one global, through which the host hands over instruments", () => {
    const { page } = load();
    expect(Object.keys(page).sort()).toEqual(["CustomFunctions", "Gylesheet"]);
  });

  test("calculates with nothing but CustomFunctions present", () => {
    const { associated } = load();
    const [[abv] = []] = associated.get("ABV")?.([[1.048]], [[1.012]], null, null) as number[][];
    expect(abv).toBeCloseTo(4.7, 1);
  });

  test("hands out the host's own errors, with a message on #VALUE! and #N/A", async () => {
    const { associated } = load();
    const [[text]] = associated.get("ABV")?.([["1,052"]], [[1.012]]) as [[HostError]];
    expect(text).toBeInstanceOf(HostError);
    expect(text).toMatchObject({ code: "#VALUE!", message: expect.stringContaining("1,052") as string });
    const [[late]] = (await associated.get("HYDROMETER")?.(1.046, 20, "Glass")) as [[HostError]];
    expect(late).toMatchObject({
      code: "#N/A",
      message: expect.stringContaining("could not be read yet") as string,
    });
  });

  test("is under 60 kB gzip", () => {
    expect(gzipSync(script).length).toBeLessThan(60_000);
  });
});
