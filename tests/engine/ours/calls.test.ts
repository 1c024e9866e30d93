import { describe, expect, test } from "vitest";
import { callFunction } from "../../../src/engine/ours/call-function.js";
import { CellFunctions } from "../../../src/engine/ours/cell-functions.js";
import { createCustomFunctions } from "../../../src/engine/ours/custom-functions.js";
import type { DeclaredParameter } from "../../../src/engine/ours/function-metadata.js";
import { FormulaError, formulaErrors, Values, type Scalar } from "../../../src/engine/values.js";

function declared(
  parameters: DeclaredParameter[],
  implementation: (...args: readonly unknown[]) => unknown,
  allowErrorForDataTypeAny = true,
): (...args: Parameters<typeof callFunction>[1][number][]) => ReturnType<typeof callFunction> {
  const { CustomFunctions, associated } = createCustomFunctions();
  CustomFunctions.associate("TRY", implementation);
  const functions = new CellFunctions(
    { allowErrorForDataTypeAny, functions: [{ id: "TRY", name: "TRY", parameters }] },
    associated,
    "GYLE",
  );
  return (...args) => {
    const fn = functions.find("GYLE.TRY");
    if (!fn) throw new Error("TRY is missing");
    return callFunction(fn, args);
  };
}

const row = (...values: Scalar[]): Values => new Values([values]);
const parameter = (more: Partial<DeclaredParameter>): DeclaredParameter => ({ name: "x", ...more });
const matrix = parameter({ type: "any", dimensionality: "matrix" });

describe("CustomFunctions", () => {
  test("associates one function, or several at once, in any letter case", () => {
    const { CustomFunctions, associated } = createCustomFunctions();
    CustomFunctions.associate("one", () => 1);
    CustomFunctions.associate({ TWO: () => 2, three: () => 3 });
    expect([...associated.keys()]).toEqual(["ONE", "TWO", "THREE"]);
    expect(associated.get("TWO")?.()).toBe(2);
  });

  test("makes errors that carry Office's codes and a message", () => {
    const { CustomFunctions } = createCustomFunctions();
    const error = new CustomFunctions.Error(CustomFunctions.ErrorCode.notAvailable, "why");
    expect(error).toMatchObject({ code: "#N/A", message: "why" });
    expect(error).toBeInstanceOf(Error);
    expect(new CustomFunctions.Error(CustomFunctions.ErrorCode.divisionByZero).message).toBe("");
  });

  test("serves a bundle that runs in a global scope of its own", async () => {
    const { runInNewContext } = await import("node:vm");
    const { CustomFunctions, associated } = createCustomFunctions();
    runInNewContext('CustomFunctions.associate("TEN", () => [[10]]);', { CustomFunctions });
    expect(associated.get("TEN")?.()).toEqual([[10]]);
  });
});

describe("a parameter that takes a matrix", () => {
  const seen = declared([matrix], (x) => JSON.stringify(x));

  test("gets one cell as a matrix of one", () => {
    expect(seen(5)).toBe("[[5]]");
  });

  test("gets blanks as null and everything else as it is", () => {
    expect(seen(row(1, "007", true, null, ""))).toBe('[[1,"007",true,null,""]]');
  });

  test("gets null when it is left out", () => {
    expect(declared([parameter({ ...matrix, optional: true })], (x) => x === null)()).toBe(true);
  });

  test("gets errors as objects with code and message where the metadata allow them", () => {
    const codes = declared([matrix], (x) => {
      const [[error] = []] = x as { code: string; message: string }[][];
      return `${error?.code ?? ""} ${error?.message ?? ""}`;
    });
    expect(codes(new FormulaError("#N/A", "gone"))).toBe("#N/A gone");
  });

  test("lets an error through without a call where the metadata do not allow them", () => {
    expect(declared([matrix], () => "called", false)(row(1, formulaErrors.number))).toEqual(
      formulaErrors.number,
    );
  });
});

describe("a parameter that takes one value", () => {
  test("of type number gets TRUE as 1, a blank as 0 and text that is a number", () => {
    const number = declared([parameter({ type: "number" })], (x) => x);
    expect([number(true), number(null), number("2.5")]).toEqual([1, 0, 2.5]);
  });

  test("of type number refuses other text without a call", () => {
    const number = declared([parameter({ type: "number" })], () => "called");
    expect([number("abc"), number(" ")]).toEqual([formulaErrors.value, formulaErrors.value]);
  });

  test("of type string gets TRUE and FALSE in capitals and a blank as empty text", () => {
    const string = declared([parameter({ type: "string" })], (x) => `<${String(x)}>`);
    expect([string(true), string(1.5), string(null)]).toEqual(["<TRUE>", "<1.5>", "<>"]);
  });

  test("of type boolean gets 0 as false and the word TRUE as true", () => {
    const boolean = declared([parameter({ type: "boolean" })], (x) => x);
    expect([boolean(0), boolean(2), boolean("true"), boolean("yes")]).toEqual([false, true, true, false]);
  });

  test("makes one call for each element of an array, repeating single rows and columns", () => {
    const sum = declared(
      [parameter({ type: "number" }), parameter({ type: "number" })],
      (a, b) => Number(a) + Number(b),
    );
    expect(sum(row(1, 2), new Values([[10], [20]]))).toEqual(
      new Values([
        [11, 12],
        [21, 22],
      ]),
    );
  });

  test("keeps an error of one element in its place", () => {
    const half = declared([parameter({ type: "number" })], (x) => Number(x) / 2);
    expect(half(row(4, "x", 6))).toEqual(row(2, formulaErrors.value, 3));
  });

  test("that repeats gets all further arguments as one array", () => {
    const join = declared([parameter({ type: "string", repeating: true })], (parts) =>
      (parts as string[]).join("+"),
    );
    expect(join("a", 2, true)).toBe("a+2+TRUE");
  });
});

describe("a result", () => {
  const giving = (result: unknown): ReturnType<typeof callFunction> => declared([], () => result)();

  test("of one element is that value, a larger one stays an array", () => {
    expect(giving([[7]])).toBe(7);
    expect(giving([[1, 2]])).toEqual(row(1, 2));
  });

  test("of a flat array is a column, a ragged one is filled up with #N/A", () => {
    expect(giving([1, 2])).toEqual(new Values([[1], [2]]));
    expect(giving([[1, 2], [3]])).toEqual(
      new Values([
        [1, 2],
        [3, formulaErrors.notAvailable],
      ]),
    );
  });

  test("that is no number a cell can hold becomes #NUM!, minus zero becomes zero", () => {
    expect([giving(NaN), giving(-Infinity)]).toEqual([formulaErrors.number, formulaErrors.number]);
    expect(Object.is(giving(-0), 0)).toBe(true);
  });

  test("that is nothing a cell can hold becomes #VALUE!", () => {
    expect([giving([]), giving([[]]), giving({}), giving(1n)]).toEqual(Array(4).fill(formulaErrors.value));
  });

  test("that is nothing at all is a blank", () => {
    expect([giving(null), giving(undefined)]).toEqual([null, null]);
  });

  test("text that spells an error stays text", () => {
    expect(giving("#N/A")).toBe("#N/A");
  });

  test("error thrown, returned or promised keeps code and message", async () => {
    const { CustomFunctions } = createCustomFunctions();
    const error = new CustomFunctions.Error("#N/A", "because");
    const expected = new FormulaError("#N/A", "because");
    expect(giving(error)).toEqual(expected);
    expect(giving([[1, error]])).toEqual(row(1, expected));
    expect(
      declared([], () => {
        throw error;
      })(),
    ).toEqual(expected);
    await expect(giving(Promise.reject(error))).resolves.toEqual(expected);
  });

  test("error that only a cell can have arrives as #VALUE!", () => {
    const { CustomFunctions } = createCustomFunctions();
    expect(giving(new CustomFunctions.Error("#REF!", "m"))).toEqual(new FormulaError("#VALUE!", "m"));
  });

  test("promised comes later, also when only some elements are promised", async () => {
    await expect(giving(Promise.resolve([[3]]))).resolves.toBe(3);
    const sometimes = declared([parameter({ type: "number" })], (x) => (x === 1 ? Promise.resolve(10) : x));
    await expect(sometimes(row(1, 2))).resolves.toEqual(row(10, 2));
  });
});

test("a function that breaks gives #VALUE! and says which one it was", () => {
  const broken = declared([], () => {
    throw new TypeError("oops");
  })();
  expect(broken).toMatchObject({ error: "#VALUE!", message: "GYLE.TRY stopped unexpectedly: oops" });
});

test("a function that is declared but not defined gives #VALUE!", () => {
  const functions = new CellFunctions(
    { functions: [{ id: "X", name: "X", parameters: [] }] },
    new Map(),
    "GYLE",
  );
  const [fn] = functions.all;
  expect(fn && callFunction(fn, [])).toMatchObject({ error: "#VALUE!" });
});

test("too few or too many arguments give #VALUE! without a call", () => {
  const two = declared([matrix, parameter({ ...matrix, optional: true })], () => "called");
  expect([two(), two(1, 2, 3)]).toEqual([formulaErrors.value, formulaErrors.value]);
  expect(two(1)).toBe("called");
});
