import {
  ArrayValueObject,
  AsyncObject,
  type BaseValueObject,
  ErrorType,
  ErrorValueObject,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { beforeEach, describe, expect, test } from "vitest";
import { univerFunctions, type UniverCell } from "../../../src/engine/univer/univer-functions.js";
import { fakeFunctions } from "../fixture.js";

let told: [UniverCell, string][] = [];
beforeEach(() => {
  told = [];
});

const { classes, descriptions } = univerFunctions(fakeFunctions(), (cell, message) => {
  if (message) told.push([cell, message]);
});

function executor(name: string): InstanceType<(typeof classes)[number][0]> {
  const found = classes.find(([, of]) => of === name);
  if (!found) throw new Error(`No ${name}`);
  const made = new found[0](name);
  made.setRefInfo("book", "sheet", 4, 2);
  return made;
}

const column = (...values: BaseValueObject[]): ArrayValueObject =>
  ArrayValueObject.create({
    calculateValueList: values.map((value) => [value]),
    rowCount: values.length,
    columnCount: 1,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });

describe("a class made for Univer", () => {
  test("knows how many arguments it takes", () => {
    expect(executor("GYLE.ADD")).toMatchObject({ minParams: 2, maxParams: 2 });
    expect(executor("GYLE.GROW")).toMatchObject({ minParams: 1, maxParams: 2 });
    expect(executor("GYLE.JOIN")).toMatchObject({ minParams: 0, maxParams: 255 });
  });

  test("passes numbers, text that looks like one, and blanks as they are", () => {
    const kinds = executor("GYLE.KIND.OF").calculate(
      column(NumberValueObject.create(1), StringValueObject.create("007"), NullValueObject.create()),
    ) as ArrayValueObject;
    expect(kinds.toValue()).toEqual([["number"], ["string"], ["blank"]]);
  });

  test("gives an array with each error in its place, and tells its message for that cell", () => {
    const doubled = executor("GYLE.DOUBLE").calculate(
      column(NumberValueObject.create(4), StringValueObject.create("x")),
    ) as ArrayValueObject;
    expect(doubled.toValue()).toEqual([[8], ["#VALUE!"]]);
    expect(told).toEqual([[{ unit: "book", sheet: "sheet", row: 5, column: 2 }, "not a number: x"]]);
  });

  test("turns what is thrown into an error value", () => {
    const result = executor("GYLE.FAIL").calculate(StringValueObject.create("gone"));
    expect(result).toBeInstanceOf(ErrorValueObject);
    expect((result as ErrorValueObject).getErrorType()).toBe(ErrorType.NA);
    expect(told.map(([, message]) => message)).toEqual(["gone"]);
  });

  test("says beforehand that it promises, and keeps the promise", async () => {
    expect([executor("GYLE.LATER").isAsync(), executor("GYLE.ADD").isAsync()]).toEqual([true, false]);
    const promised = executor("GYLE.LATER").calculate(NumberValueObject.create(1));
    expect(promised).toBeInstanceOf(AsyncObject);
    const value = await (promised as AsyncObject).getValue();
    expect(value.getValue()).toBe(1001);
  });
});

test("argument help names every parameter, and which may be left out or repeated", () => {
  const grow = descriptions.find(({ functionName }) => functionName === "GYLE.GROW");
  expect(grow?.functionParameter.map(({ name, require, repeat }) => [name, require, repeat])).toEqual([
    ["rows", 1, 0],
    ["columns", 0, 0],
  ]);
});
