// The functions bundle, as it ships, under Microsoft's own dispatcher of custom functions.
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { chromium } from "../support/tools.js";
import {
  askAll,
  call,
  columnsOf,
  down,
  everyFunction,
  ids,
  likeExample,
  replaced,
  rowsOf,
} from "./every-function.js";
import { cellsOf, isError } from "./host-cells.js";
import { hostileArguments } from "./hostile-cells.js";
import {
  ASSOCIATED,
  bringInstruments,
  functionsPage,
  IN_EXCEL,
  officeVersion,
  OWN_RUNTIME,
  RICH_VALUES,
  SHARED_RUNTIME,
  type FunctionsPage,
} from "./office-page.js";
import { browserOfFile } from "./quiet-browser.js";

test("the simulated Excel speaks to the version of Office.js that is installed", () => {
  expect(
    officeVersion,
    "simulated-excel.js rests on internals of Office.js: the bridge and the layout of its messages. See that they are " +
      "the same in another version before you name it here.",
  ).toBe("1.1.110");
});

const form = { valueType: "CustomFunctionError", type: "Error", basicType: "Error" };

describe.skipIf(!chromium.present)("functions.js under Excel's dispatcher", () => {
  const browser = browserOfFile();
  let own: FunctionsPage;
  let shared: FunctionsPage;
  beforeAll(async () => {
    [own, shared] = await Promise.all([open(OWN_RUNTIME), open(SHARED_RUNTIME, IN_EXCEL)]);
  });

  async function open(scripts: readonly string[], path?: string): Promise<FunctionsPage> {
    const excel = await functionsPage(browser(), scripts, path);
    await bringInstruments(excel);
    return excel;
  }

  for (const [runtime, excel, asked] of [
    ["a runtime of their own", () => own, [...OWN_RUNTIME, "o15apptofilemappingtable.js"]],
    [
      "the runtime of the pane",
      () => shared,
      [...SHARED_RUNTIME, "excel-win32-16.01.js", "en-us/office_strings.js"],
    ],
  ] as const)
    describe(`in ${runtime}`, () => {
      test("every function of the metadata is associated under its id, and no other", async () => {
        expect(await excel().page.evaluate(ASSOCIATED)).toEqual(ids);
      });

      test("every function gives what its worked example says", async () => {
        await askAll(excel(), (of) => [call(of, of.example.args)], likeExample(1));
      });

      test("errors reach Excel with code and message, in their places", async () => {
        const [refused, unknown] = await excel().ask([
          ["ABV", [down(1.048, "1,052", 1.048), [[1.012]], null, null]],
          ["HYDROMETER", [down(1.05, 1.05), [[20]], down("Lost glass", "Starting glass"), null]],
        ]);
        const abv = expect.closeTo(4.7, 1) as number;
        const comma = expect.stringMatching(/^The original gravity is "1,052".*decimal comma/) as string;
        const lost = expect.stringMatching(/^There is no instrument "Lost glass"\./) as string;
        expect(refused?.value).toEqual(
          down(
            abv,
            { ...form, code: "#VALUE!", basicValue: "#VALUE!", errorType: "Value", message: comma },
            abv,
          ),
        );
        expect(unknown?.value).toEqual(
          down(
            { ...form, code: "#N/A", basicValue: "#N/A", errorType: "NotAvailable", message: lost },
            expect.closeTo(1.05, 9),
          ),
        );
      });

      test("only Office.js asks for more than the page names, and nothing is complained of", () => {
        expect(excel().requests).toEqual(asked.map((name) => `/${name}`));
        expect([excel().strays, excel().errors]).toEqual([[], []]);
      });
    });

  describe("whatever Excel sends", () => {
    test("a cell may come bare, and the list may be as short as older metadata had it", async () => {
      await askAll(
        own,
        ({ id, parameters, example: { args } }) => [
          [id, parameters.map((_, i) => args[i] ?? null)],
          [id, args], // what the dispatcher appends then stands where an optional argument belongs
        ],
        likeExample(1),
      );
    });

    test("an optional argument may be an empty cell, in every way in which one arrives", async () => {
      await askAll(
        own,
        (of) =>
          [0, null, ""].map((blank) =>
            call(
              of,
              // A yield of 0 is refused, lest it be taken for pure sugar.
              of.parameters.map(
                (_, i) =>
                  of.example.args[i] ?? [[blank === 0 && of.id === "FORTIFY" && i === 3 ? null : blank]],
              ),
            ),
          ),
        likeExample(1),
      );
    });

    test("rich values count as what they show", async () => {
      // Packed by Excel if the metadata asked for it; as they are, if it ever sends them so.
      const rich = (arg: unknown): unknown =>
        typeof arg === "number" ? { type: "FormattedNumber", basicValue: arg, numberFormat: "0.000" } : arg;
      const packed = (arg: unknown): unknown =>
        typeof arg === "number" ? [[{ value: JSON.stringify(rich(arg)) }]] : arg;
      const asked = (change: typeof rich) => (of: (typeof everyFunction)[number]) => [
        call(of, of.example.args.map(change)),
      ];
      await askAll(own, asked(rich), likeExample(1));
      await askAll(own, asked(packed), likeExample(1), RICH_VALUES);
    });

    test("without its first cell there is a blank, and without all cells nothing but blanks", async () => {
      for (const blank of [[[0]], [[null]], [[""]], null])
        await askAll(
          own,
          (of) => [
            call(of, replaced(of, 0, blank)),
            call(
              of,
              of.parameters.map(() => blank),
            ),
          ],
          (cells, { example }, [, args]) => {
            expect([cells.length, cells[0]?.length]).toEqual([rowsOf(example), columnsOf(example)]);
            expect(cells[0]?.[0]).toBe("");
            if (args.every((arg) => arg === blank)) expect(new Set(cells.flat())).toEqual(new Set([""]));
          },
        );
    });

    test("an error cell gives its error, from whichever argument, or #VALUE! where it cannot be given", async () => {
      const codes = { "#DIV/0!": "#DIV/0!", "#NUM!": "#NUM!", "#N/A": "#N/A", "#REF!": "#VALUE!" };
      for (const [code, given] of Object.entries(codes)) {
        const broken = [[{ type: "CustomFunctionError", code }]];
        await askAll(
          own,
          (of) => of.parameters.map((_, i) => call(of, replaced(of, i, broken))),
          (cells, _, call) => {
            const errors = cells.flat().filter(isError);
            expect([call, ...new Set(errors.map((error) => error.code))]).toEqual([call, given]);
          },
        );
      }
    });

    test("a range against a range makes a grid, a column a column, and lists one result", async () => {
      const across = (args: readonly unknown[]): unknown[] =>
        args.map((arg) => (Array.isArray(arg) ? [arg.flat()] : arg));
      await askAll(
        own,
        (of) => {
          const [first, second, ...rest] = of.example.args;
          if (of.example.spreads === "no") return [call(of, across(of.example.args))];
          if (of.example.spreads === "down")
            return [
              call(
                of,
                of.example.args.map((arg) => down(arg, arg, arg)),
              ),
            ];
          return [call(of, [down(first, first, first), [[second, second]], ...rest])];
        },
        (cells, of, call) => {
          const { spreads } = of.example;
          likeExample(spreads === "no" ? 1 : 3, spreads === "grid" ? 2 : columnsOf(of.example))(
            cells,
            of,
            call,
          );
        },
      );
    });

    test("one bad cell gives one error, and its neighbours stay what they are", async () => {
      await askAll(
        own,
        (of) => {
          const [first] = of.example.args;
          return of.example.spreads === "no" ? [] : [call(of, replaced(of, 0, down(first, "1,052", first)))];
        },
        (cells, of, call) => {
          likeExample(2)([cells[0] ?? [], cells[2] ?? []], of, call);
          const [error, ...others] = cells[1]?.filter(isError) ?? [];
          expect([call, error?.message, others]).toEqual([call, expect.stringContaining('"1,052"'), []]);
        },
      );
    });

    test("ranges that do not fit together are refused in one cell", async () => {
      await askAll(
        own,
        (of) => {
          const [first, second, ...rest] = of.example.args;
          return of.example.spreads === "no"
            ? []
            : [call(of, [down(first, first, first), down(second, second), ...rest])];
        },
        (cells, _, call) => {
          const sizes = expect.stringContaining("3 × 1, 2 × 1") as string;
          expect([call, cells]).toEqual([call, [[expect.objectContaining({ message: sizes })]]]);
        },
      );
    });

    test("there is always an answer, whatever the cells hold", async () => {
      const calls = fc
        .sample(fc.tuple(fc.constantFrom(...ids), hostileArguments), 400)
        .map(([id, args]): HostCall => [id, args]);
      const answers = await own.ask(calls);
      expect(answers.length).toBe(400);
      calls.forEach((call, i) => cellsOf(call, answers[i]));
    });
  });
});
