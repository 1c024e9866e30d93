// A workbook at the desk that has lost its instruments: no number becomes an error by itself, and the pane mends it.
import { readFileSync } from "node:fs";
import type { FrameLocator, Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { alikeValues } from "../../src/engine/values.js";
import { fromCell } from "../../src/engine/grid.js";
import { partNamespace } from "../../src/instruments/part.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import type { CellValue } from "../../src/workbook/model.js";
import { instrumentsJson, season, seasonWithoutInstruments } from "../recalc/command.js";
import { bookOf } from "../support/build-workbook.js";
import { chromium } from "../support/tools.js";
import {
  becomes,
  cells,
  deskSession,
  goTo,
  hover,
  isOpen,
  open,
  saved,
  savedCells,
  type,
} from "./desk-session.js";

/** All values of a file by place. */
async function valuesOf(bytes: Uint8Array): Promise<Map<string, CellValue>> {
  const { sheets } = (await openWorkbook(bytes)).model;
  return new Map(
    sheets.flatMap(({ name, cells: all }) =>
      all.map(({ row, column, value }) => [`${name}!${row},${column}`, value] as const),
    ),
  );
}

/** What the season holds in J5, K5, L5 and J6: a gravity, a final gravity, an alcohol, the gravity below. */
const stored = await valuesOf(season());
const [og, fg, abv, below] = ["Season!4,9", "Season!4,10", "Season!4,11", "Season!5,9"].map((place) =>
  Number(stored.get(place)),
) as [number, number, number, number];

/** Places whose values are others. */
async function differing(before: Uint8Array, after: Uint8Array): Promise<string[]> {
  const [was, is] = [await valuesOf(before), await valuesOf(after)];
  return [...new Set([...was.keys(), ...is.keys()])].filter(
    (place) => !alikeValues(fromCell(was.get(place) ?? null), fromCell(is.get(place) ?? null)),
  );
}

const importAll = async (pane: FrameLocator): Promise<void> => {
  await pane.getByRole("button", { name: "Import", exact: true }).click();
  await pane.locator("input[type=file]").setInputFiles({
    name: "mine.json",
    mimeType: "application/json",
    buffer: readFileSync(instrumentsJson),
  });
  await pane.getByRole("button", { name: /^Take \d+ instruments/ }).click();
};

describe.skipIf(!chromium.present)("a season without its instruments", () => {
  const desk = deskSession();
  let page: Page;
  let pane: FrameLocator;
  let bare: Uint8Array;
  const notice = () => page.locator("#notices").getByText(/keep what the file has/);

  beforeAll(async () => {
    bare = await seasonWithoutInstruments();
    page = await desk("/");
    page.on("dialog", (dialog) => void dialog.accept());
    pane = page.frameLocator("#pane");
    await open(page, "season.xlsx", bare);
    await isOpen(page, "season.xlsx");
  });

  test("opens with every number that it had, and says what is missing", async () => {
    expect(await cells(page, "Season!J5:L5")).toEqual([[og, fg, abv]]);
    await notice()
      .getByText(/^\d+ cells keep .*"Starting glass".* are not in this workbook\./)
      .waitFor();
  });

  test("is saved as it is", async () => {
    expect(await saved(page)).toEqual(bare);
  });

  test("a cell that keeps its number says why", async () => {
    await goTo(page, "Season", "J5");
    await page
      .locator("#status")
      .getByText(/^It names the instrument "Starting glass", which is not in this workbook\. The cell keeps/)
      .waitFor();
    // Where the line below says nothing, what shows is at the pointer.
    await goTo(page, "Season", "A1");
    await page
      .locator("#status")
      .getByText(/^Gylesheet's functions begin/)
      .waitFor();
    await hover(page, 5, /^It names the instrument "(Starting|Finishing) glass", which is not/);
  });

  test("a reading that is edited takes its number away, and no other", async () => {
    await type(page, "Season", "D5", "1.046");
    await becomes(page, "Season!J5:L5", ([row]) => row?.[0] === "#N/A" && row[2] === "#N/A");
    expect(await cells(page, "Season!K5")).toEqual([[fg]]);
    expect(await cells(page, "Season!J6")).toEqual([[below]]);
    const changed = await differing(bare, await saved(page));
    // The reading itself, the gravity, alcohol and both attenuations that follow from it, and nothing on another row.
    expect(changed.filter((place) => place.startsWith("Season!4,"))).toEqual(
      [3, 9, 11, 12, 13].map((column) => `Season!4,${column}`),
    );
  });

  test("the old reading brings the number back", async () => {
    await page.keyboard.press("Control+z");
    await becomes(page, "Season!J5:L5", ([row]) => row?.[0] === og && row[2] === abv);
    expect(await differing(bare, await saved(page))).toEqual([]);
  });

  test("instruments that are imported mend it, and the notice goes", { timeout: 60_000 }, async () => {
    await type(page, "Season", "D5", "1.046");
    await becomes(page, "Season!J5", ([row]) => row?.[0] === "#N/A");
    await importAll(pane);
    const [[mended] = []] = await becomes(page, "Season!J5", ([row]) => typeof row?.[0] === "number");
    expect(mended).toBeGreaterThan(og);
    await notice().waitFor({ state: "detached" });
    await type(page, "Season", "D5", "1.045");
    await becomes(page, "Season!J5", ([row]) => alikeValues(row?.[0] as number, og));
    expect(await differing(bare, await saved(page))).toEqual([]);
    await type(page, "Season", "D6", "1.039");
    await becomes(page, "Season!J6", ([row]) => Number(row?.[0]) > 1.039);
  });
});

describe.skipIf(!chromium.present)("however a formula hides that an instrument is missing", () => {
  const desk = deskSession();
  const HIDDEN = 'GYLE.HYDROMETER($A$1,20,"Lost glass")';
  const stored = (value: number | string | boolean): string =>
    typeof value === "number"
      ? `<v>${value}</v>`
      : typeof value === "string"
        ? `<v>${value}</v>`
        : `<v>${Number(value)}</v>`;
  const typeOf = (value: unknown): string =>
    typeof value === "number" ? "" : typeof value === "string" ? ' t="str"' : ' t="b"';
  const all: readonly (readonly [string, number | string | boolean])[] = [
    [HIDDEN, 1.0502],
    [`IFERROR(${HIDDEN},"")`, 1.0502],
    [`ROUND(${HIDDEN},3)+$B$1`, 2.06],
    [`IF(${HIDDEN}&gt;1.04,"in spec","too weak")`, "in spec"],
    [`ISNUMBER(${HIDDEN})`, true],
    [`GYLE.ABV(${HIDDEN},$B$1)`, 5.3],
    ['GYLE.HYDROMETER($A$1,20,"Lost "&amp;"glass")', 1.0502],
    ['GYLE.HYDROMETER($A$1,20,INDIRECT("$D$1"))', 1.0502],
    ['GYLE.HYDROMETER(OFFSET($A$1,0,0),20,"Lost glass")', 1.0502],
    ['_xlfn.LET(_xlpm.g,$A$1,GYLE.HYDROMETER(_xlpm.g,20,"Lost glass"))', 1.0502],
    ['GYLE.INSTRUMENT("Lost glass","SUMMARY")', "a glass"],
  ];
  const rows = all.map(
    ([formula, value], i) =>
      `<row r="${i + 2}"><c r="A${i + 2}"${typeOf(value)}><f>${formula}</f>${stored(value)}</c>` +
      // What follows has no value in the file that could be taken on trust.
      `<c r="B${i + 2}"><f>A${i + 2}&amp;"!"</f></c></row>`,
  );
  const book = bookOf(
    `<row r="1"><c r="A1"><v>1.05</v></c><c r="B1"><v>1.01</v></c><c r="D1" t="str"><v>Lost glass</v></c></row>${rows.join("")}`,
  );
  const last = all.length + 1;

  test("it keeps what it had until its reading is edited", { timeout: 60_000 }, async () => {
    const page = await desk("/");
    await open(page, "book.xlsx", book);
    await isOpen(page, "book.xlsx");
    const shown = all.map(([, value]) => [value, `${typeof value === "boolean" ? "TRUE" : value}!`]);
    expect(await cells(page, `S!A2:B${last}`)).toEqual(shown);
    const at = await savedCells(page);
    expect(all.map((_, i) => at(`A${i + 2}`)?.value)).toEqual(all.map(([, value]) => value));
    await type(page, "S", "A1", "1.06");
    await becomes(page, "S!A2", ([row]) => row?.[0] === "#N/A");
    const after = (await cells(page, `S!A2:A${last}`)).map(([value]) => value);
    expect(after).toEqual(
      all.map(([formula]) =>
        formula.startsWith("IFERROR")
          ? ""
          : formula.startsWith("ISNUMBER")
            ? false
            : formula.includes("SUMMARY")
              ? "a glass"
              : "#N/A",
      ),
    );
    expect((await savedCells(page))("A2")?.value).toEqual({ error: "#N/A" });
  });
});

describe.skipIf(!chromium.present)(
  "one formula that fills a column, and one that works its instrument out",
  () => {
    const desk = deskSession();
    let page: Page;
    let pane: FrameLocator;
    const rows = [1.05, 1.06].map(
      (reading, i) =>
        `<row r="${i + 1}"><c r="A${i + 1}"><v>${reading}</v></c><c r="B${i + 1}"><v>20</v></c>` +
        (i === 0
          ? '<c r="C1" t="str"><v>Starting glass</v></c><c r="D1" cm="1"><f t="array" ref="D1:D2">GYLE.HYDROMETER(A1:A2,B1:B2,C1)</f><v>1.0491</v></c>' +
            '<c r="E1"><f>GYLE.HYDROMETER(A1,B1,"Starting "&amp;"glass")</f><v>1.0492</v></c>'
          : '<c r="D2"><v>1.0591</v></c>') +
        "</row>",
    );

    beforeAll(async () => {
      page = await desk("/");
      page.on("dialog", (dialog) => void dialog.accept());
      pane = page.frameLocator("#pane");
      await open(page, "book.xlsx", bookOf(rows.join("")));
      await isOpen(page, "book.xlsx");
    });

    test("keep all their numbers, which is said by the number of cells", async () => {
      expect(await cells(page, "S!D1:E2")).toEqual([
        [1.0491, 1.0492],
        [1.0591, ""],
      ]);
      await page
        .locator("#notices")
        .getByText(/^3 cells keep what the file has, because they need "Starting glass", /)
        .waitFor();
      expect(await saved(page)).toEqual(bookOf(rows.join("")));
    });

    test("show what they come to without once that is asked for", async () => {
      await pane.getByRole("button", { name: "Recalculate all the same" }).click();
      await becomes(page, "S!D1:E2", ([row]) => row?.[0] === "#N/A" && row[1] === "#N/A");
      await page
        .locator("#notices")
        .getByText(/keep what the file has/)
        .waitFor({ state: "detached" });
    });

    test("are calculated once the instrument is there", async () => {
      await open(page, "again.xlsx", bookOf(rows.join("")));
      await isOpen(page, "again.xlsx");
      await becomes(page, "S!D1", ([row]) => row?.[0] === 1.0491);
      await importAll(pane);
      const calculated = await becomes(
        page,
        "S!D1:E2",
        ([row]) => row?.[0] !== 1.0491 && row?.[1] !== 1.0492,
      );
      expect(
        calculated
          .flat()
          .slice(0, 3)
          .every((value) => typeof value === "number"),
      ).toBe(true);
      expect(calculated[0]?.[0]).toBe(calculated[0]?.[1]);
    });

    test("become errors where the user deletes the instrument that they had back", async () => {
      await pane
        .getByRole("button", { name: /^Starting glass/ })
        .first()
        .click();
      await pane.getByRole("button", { name: /^Delete/ }).click();
      await pane
        .getByRole("dialog")
        .getByRole("button", { name: /^Delete/ })
        .click();
      await becomes(page, "S!D1:D2", (rows) => rows.flat().every((value) => value === "#N/A"));
    });
  },
);

describe.skipIf(!chromium.present)("instruments that a later version has written", () => {
  const desk = deskSession();

  test(
    "do not keep the season from opening, nor its numbers from being kept",
    { timeout: 60_000 },
    async () => {
      const workbook = await openWorkbook(season());
      const later = workbook
        .customXml(partNamespace)
        .map(({ path, xml }) => ({ path, xml: xml.replace('"version": 1', '"version": 99') }));
      const bytes = await workbook.patch([], { customXml: later });
      const page = await desk("/");
      await open(page, "season.xlsx", bytes);
      await isOpen(page, "season.xlsx");
      await page
        .locator("#notices")
        .getByText(
          /^\d+ cells keep what the file has, because the instruments of this workbook cannot be read\./,
        )
        .waitFor();
      expect(await cells(page, "Season!J5:L5")).toEqual([[og, fg, abv]]);
      expect(await saved(page)).toEqual(bytes);
    },
  );
});
