import { describe, expect, test } from "vitest";
import { foundCalls } from "../../src/formulas/single-call.js";
import { functions } from "./functions.js";

describe("all calls in a formula", () => {
  test("come each after those inside it, which stand for their results", () => {
    expect(foundCalls("=ROUND(GYLE.ABV(GYLE.HYDROMETER(A2,B2),1.01),1)", functions)).toEqual([
      { name: "HYDROMETER", args: [{ reference: "A2" }, { reference: "B2" }], isWhole: false },
      { name: "ABV", args: [{ call: 0 }, { value: 1.01 }], isWhole: false },
    ]);
  });

  test("have no arguments where one is worked out, and say whether there is anything else", () => {
    expect(foundCalls("=GYLE.ABV(A1*2,B1)", functions)).toEqual([
      { name: "ABV", args: undefined, isWhole: true },
    ]);
    expect(foundCalls("=GYLE.ABV(ROUND(GYLE.HYDROMETER(A2,B2),3),B1)", functions)[1]?.args).toBeUndefined();
  });

  test("are none where there are none", () => {
    expect(foundCalls("=SUM(A1:A9)", functions)).toEqual([]);
  });
});
