import { beforeAll, describe, expect, test } from "vitest";
import { call, callInPlace, matrix } from "../../../src/functions/contract/call.js";
import { CellError, type RawCells, type Result } from "../../../src/functions/contract/cell-value.js";
import { columnOf, topics, type FunctionSpec } from "../../../src/functions/contract/function-spec.js";
import { unknownFailure } from "../../../src/functions/contract/messages.js";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";

beforeAll(() => {
  useInstruments({ version: 1, instruments: [] });
});

test("a host may hand over a range, a row, a single cell or nothing", () => {
  const range = [
    [1, 2],
    [3, 4],
  ];
  expect(matrix(range)).toEqual(range);
  expect(matrix([1, 2])).toEqual([[1], [2]]);
  expect(matrix(7)).toEqual([[7]]);
  for (const nothing of [undefined, [], [[]], [[], []]]) expect(matrix(nothing)).toEqual([[undefined]]);
});

/** A function of two columns that does as it is told. */
const spec = (calculate: (args: readonly RawCells[]) => Result[][]): FunctionSpec => ({
  name: "TRIAL",
  topic: topics[0],
  question: "",
  summary: "",
  returns: "",
  examples: [],
  method: "",
  parameters: [columnOf("first", ""), columnOf("second", "")],
  calculate,
});

const failed = expect.objectContaining({ code: "#VALUE!", message: unknownFailure }) as unknown;

describe("what goes out to the cells", () => {
  test("is what the function gave", () => {
    expect(
      call(
        spec(() => [[1, "", "text", true]]),
        [],
      ),
    ).toEqual([[1, "", "text", true]]);
  });

  test("has an error where a number is none, and the rest beside it", () => {
    const given = spec(() => [
      [1, NaN, "NaN"],
      [Infinity, -Infinity, 2],
      [3, 4, 5],
    ]);
    expect(call(given, [])).toEqual([
      [1, failed, "NaN"],
      [failed, failed, 2],
      [3, 4, 5],
    ]);
  });

  test("is one error where all cells share a problem, and where the function fails", () => {
    const error = new CellError("#N/A", "why");
    const throwing = (what: Error) =>
      spec(() => {
        throw what;
      });
    expect(call(throwing(error), [])).toEqual([[error]]);
    expect(call(throwing(new TypeError("a fault")), [])).toEqual([[failed]]);
  });
});

test("arguments that are left out arrive as empty cells, and what is too much does not arrive", () => {
  let seen: readonly RawCells[] = [];
  void call(
    spec((args) => {
      seen = args;
      return [[0]];
    }),
    [1],
  );
  expect(seen).toEqual([[[1]], [[undefined]]]);
  void call(
    spec((args) => {
      seen = args;
      return [[0]];
    }),
    [1, 2, 3],
  );
  expect(seen).toEqual([[[1]], [[2]]]);
});

describe("a single cell in place", () => {
  const inPlace = (work: NonNullable<FunctionSpec["inPlace"]>): FunctionSpec => ({
    ...spec(() => []),
    inPlace: work,
  });

  test("is what the function makes of the contents of its cells", () => {
    expect(
      callInPlace(
        inPlace((cells) => cells.length),
        [{ basicValue: 7 }],
      ),
    ).toBe(2);
    expect(
      callInPlace(
        inPlace(([first]) => first as Result),
        [{ basicValue: 7 }],
      ),
    ).toBe(7);
    expect(
      callInPlace(
        inPlace(([, second]) => String(second)),
        [1],
      ),
    ).toBe("undefined");
  });

  test("is an error where it is no number, or the function fails", () => {
    expect(
      callInPlace(
        inPlace(() => NaN),
        [],
      ),
    ).toEqual(failed);
    expect(
      callInPlace(
        inPlace(() => {
          throw new TypeError("a fault");
        }),
        [],
      ),
    ).toEqual(failed);
  });

  test("is not asked for where a function does not go cell by cell", () => {
    expect(
      callInPlace(
        spec(() => [[1]]),
        [1],
      ),
    ).toBeUndefined();
  });
});
