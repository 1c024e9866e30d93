// Files and parts that come from elsewhere: looked at before anything changes, refused with a reason, shown as text.
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { findInstrument } from "../../src/instruments/find.js";
import { writePart } from "../../src/instruments/part.js";
import { formatSet, type InstrumentSet } from "../../src/instruments/set.js";
import { instruments } from "../support/instruments.js";
import { chromium } from "../support/tools.js";
import { faults } from "./accessibility.js";
import { choose, press, type } from "./keyboard.js";
import { book, filledBook, heading, paneSession, says, stored } from "./pane-session.js";

const prism = findInstrument(instruments, "Pocket prism");
if (prism?.kind !== "refractometer") throw new Error("the fixture lost its prism");

const give = (page: Page, text: string): Promise<void> =>
  page.getByLabel("File", { exact: true }).setInputFiles({
    name: "mine.json",
    mimeType: "application/json",
    buffer: Buffer.from(text),
  });

/** Made on the page: so much would take its time on the way there. */
const giveLarge = (page: Page, bytes: number): Promise<void> =>
  page.getByLabel("File", { exact: true }).evaluate((input: HTMLInputElement, size) => {
    const files = new DataTransfer();
    files.items.add(new File(["[".repeat(size)], "large.json"));
    input.files = files.files;
    input.dispatchEvent(new Event("change"));
  }, bytes);

describe.skipIf(!chromium.present)("files in the pane", () => {
  const open = paneSession();

  const openImport = async (): Promise<Page> => {
    const page = await open(filledBook);
    await press(page, "Import");
    return page;
  };

  test("an exported file holds all instruments, and comes in again without a change", async () => {
    const page = await openImport();
    await press(page, "Back to Instruments");
    await press(page, "Export");
    const [saved] = (await book(page)).saved;
    expect(JSON.parse(saved?.text ?? "")).toEqual(instruments);
    await press(page, "Import");
    await give(page, saved?.text ?? "");
    await says(page, "mine.json has 7 instruments: 0 new, 0 different from what is here, 7 the same.");
    expect(await page.getByRole("button", { name: "Nothing to take" }).isDisabled()).toBe(true);
  });

  test("where a host saves no files, the text is shown for copying", async () => {
    const page = await open({ ...filledBook, savesNothing: true });
    await press(page, "Export");
    expect(await heading(page)).toBe("instruments.json");
    expect(JSON.parse(await page.getByLabel("Copy this into a file").inputValue())).toEqual(instruments);
    expect(await faults(page)).toEqual([]);
  });

  test("a file is compared first, and overwrites only what is chosen", async () => {
    const file: InstrumentSet = {
      version: 1,
      instruments: [
        { ...prism, wortFactor: 1.05 },
        { ...prism, name: "STARTING GLASS" },
        { ...prism, name: "New prism" },
      ],
    };
    const page = await openImport();
    await give(page, formatSet(file));
    await says(page, "mine.json has 3 instruments: 1 new, 2 different from what is here, 0 the same.");
    expect(await faults(page)).toEqual([]);
    expect((await book(page)).parts).toEqual(filledBook.parts);
    await choose(page, "Do what", "Take");
    await press(page, "Take 2 instruments");
    await says(page, "Instruments of mine.json are in this workbook now.");
    await says(page, "1 formula calculated again.");
    const set = await stored(page);
    expect(findInstrument(set, "Pocket prism")).toMatchObject({ wortFactor: 1.05 });
    expect(findInstrument(set, "Starting glass")).toEqual(findInstrument(instruments, "Starting glass"));
    expect(findInstrument(set, "New prism")).toBeDefined();
    expect((await book(page)).log).toEqual(["recalculate E2"]);
  });

  test("one of another kind is taken only after it was said what its formulas may come to", async () => {
    const page = await openImport();
    await says(page, "From a file that Gylesheet exported.");
    await give(page, formatSet({ version: 1, instruments: [{ ...prism, name: "Starting glass" }] }));
    await says(page, "mine.json has 1 instrument: 0 new, 1 different from what is here, 0 the same.");
    expect(await page.getByText(/may show an error/).count()).toBe(0);
    await choose(page, "Do what", "Take");
    await says(page, '2 formulas that name "Starting glass" may show an error with it');
    expect(await faults(page)).toEqual([]);
  });

  test("what cannot be taken is refused with a reason, and nothing changes", async () => {
    const page = await openImport();
    const own = `{"version":1,"instruments":[]`;
    const long = { ...prism, name: "n".repeat(10_000) };
    for (const [text, reason] of [
      ["{", /The instruments are not JSON/],
      [`{"version":7}`, /format version 7; this Gylesheet reads up to 1\. Update it\./],
      [`${own},"__proto__":{"polluted":true}}`, /__proto__: there is no such field here\./],
      [`${own},"constructor":{"prototype":{}}}`, /constructor: there is no such field here\./],
      [JSON.stringify({ version: 1, instruments: [long] }), /allowed is at most 100 characters\./],
      [50_000_000, /The file has 50 MB; instruments take less than 1\./],
      [5_000_000, /The instruments take 5000000 characters/],
    ] as const) {
      await (typeof text === "string" ? give(page, text) : giveLarge(page, text));
      await says(page, "The file was not taken.");
      await says(page, reason);
    }
    expect(await faults(page)).toEqual([]);
    expect(await page.evaluate(() => "polluted" in {})).toBe(false);
    expect((await book(page)).parts).toEqual(filledBook.parts);
  });

  test("names are text, whatever they spell", async () => {
    const names = [
      `<img src=x onerror="window.harmed=true">`,
      `=HYPERLINK("https://example.org","click")`,
      "🍺🧪 – œuf",
      "‏מד צפיפות‏",
      `"'&lt;`,
    ];
    const set = { version: 1 as const, instruments: names.map((name) => ({ ...prism, name })) };
    const page = await open({ parts: [writePart(set)] });
    for (const name of names) {
      await page.getByRole("button", { name }).click();
      expect(await heading(page)).toBe(name);
      await press(page, "Back to Instruments");
    }
    expect(await page.locator("img").count()).toBe(0);
    expect(await page.evaluate(() => "harmed" in window)).toBe(false);
    expect(await faults(page)).toEqual([]);
    // A quote in a name is doubled where a formula says it.
    await page.getByRole("button", { name: names[1] ?? "" }).click();
    await press(page, /^REFRACTOMETER.WORT/);
    await says(page, `"=HYPERLINK(""https://example.org"",""click"")"`);
  });

  test("a name that is too long is refused at its field", async () => {
    const page = await open();
    await press(page, /^Floating hydrometer/);
    await type(page, /^Name/, "n".repeat(10_000));
    await page.keyboard.press("Enter");
    await says(page, "Give at most 100 characters.");
    expect((await book(page)).parts).toEqual([]);
  });

  test("a part that declares entities is not read and not touched", async () => {
    const bomb = `<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>${writePart(instruments).replace(/^<\?xml.*\?>/, "")}`;
    const page = await open({ parts: [bomb, writePart(instruments)] });
    await says(page, "They are kept as they are.");
    await press(page, /^Bobber/);
    await press(page, "Delete");
    await press(page, "Delete");
    await says(page, '"Bobber" is deleted.');
    expect((await book(page)).parts[0]).toBe(bomb);
    expect((await book(page)).parts).toHaveLength(2);
  });

  test("nothing is hard to see in the dark, or where the system sets the colours", async () => {
    for (const options of [{ colorScheme: "dark" }, { forcedColors: "active" }] as const) {
      const page = await open(filledBook, options);
      await says(page, "Named in 2 formulas");
      expect(await faults(page)).toEqual([]);
      await press(page, /^Starting glass/);
      await press(page, "Edit");
      await type(page, /^True at/, "x");
      await press(page, "Save");
      expect(await faults(page)).toEqual([]);
    }
  });
});
