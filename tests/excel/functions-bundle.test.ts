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

/** A page in which there is nothing but CustomFunctions, without even a clock; tests/e2e has a whole one. */
function load() {
  const associated = new Map<string, Associated>();
  const CustomFunctions = {
    associate: (id: string, f: Associated) => associated.set(id, f),
    Error: HostError,
    ErrorCode: { notAvailable: "#N/A" },
  };
  const page = createContext({ CustomFunctions });
  runInContext(script, page);
  return { associated, page };
}

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

  test("does not wait for instruments where there is no clock to wait by", async () => {
    const { associated } = load();
    const [[late]] = (await associated.get("HYDROMETER")?.(1.046, 20, "Glass")) as [[HostError]];
    expect(late).toBeInstanceOf(HostError);
    expect(late.code).toBe("#N/A");
  });

  test("is under 60 kB gzip", () => {
    expect(gzipSync(script).length).toBeLessThan(60_000);
  });
});
