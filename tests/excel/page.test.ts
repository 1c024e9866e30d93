// What hangs on the page rather than on the workbook. Node has no page, so the few parts of one that are used stand here.
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { pageFiles } from "../../src/excel/workbook/files.js";
import { excelStart } from "../../src/excel/start/office.js";
import { coAuthorEdits } from "../../src/excel/workbook/co-author-edits.js";
import { applyTheme } from "../../src/excel/start/theme.js";
import { FakeWorkbook } from "./fake-workbook.js";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe("Excel on its way", () => {
  const office = (host: string | null, supported: (set: string) => boolean = () => true): void => {
    vi.stubGlobal("Office", {
      HostType: { Excel: "Excel" },
      onReady: () => Promise.resolve({ host, platform: null }),
      context: { requirements: { isSetSupported: supported } },
    });
  };

  test("is there", async () => {
    office("Excel");
    expect(await excelStart()).toEqual({ kind: "ready" });
  });

  test.each([null, "Word"])("is not what holds the page (%s)", async (host) => {
    office(host);
    expect(await excelStart()).toMatchObject({
      kind: "outside",
      why: expect.stringContaining("inside Excel") as string,
    });
  });

  test.each(["SharedRuntime", "CustomFunctionsRuntime", "ExcelApi"])(
    "is too old without %s",
    async (lacking) => {
      office("Excel", (set) => set !== lacking);
      expect(await excelStart()).toMatchObject({
        kind: "old",
        why: expect.stringContaining(lacking) as string,
      });
    },
  );

  test("does not answer, or its script was blocked", async () => {
    expect(await excelStart()).toMatchObject({ kind: "silent" });
    vi.stubGlobal("Office", { onReady: () => new Promise(() => undefined) });
    const start = excelStart(1000);
    await vi.advanceTimersByTimeAsync(1000);
    expect(await start).toMatchObject({
      kind: "silent",
      why: expect.stringContaining("does not answer") as string,
    });
  });
});

describe("looking for what others did", () => {
  const listeners = new Map<string, () => void>();
  const page = { visibilityState: "visible" };
  let book: FakeWorkbook;
  let look: ReturnType<typeof vi.fn<() => void>>;

  beforeEach(async () => {
    book = new FakeWorkbook().open();
    const addEventListener = (name: string, f: () => void) => listeners.set(name, f);
    page.visibilityState = "visible";
    vi.stubGlobal("document", Object.assign(page, { addEventListener }));
    vi.stubGlobal("window", { addEventListener });
    look = vi.fn<() => void>();
    coAuthorEdits().on(look);
    await vi.advanceTimersByTimeAsync(0);
  });

  test("every 30 seconds while the pane is seen", async () => {
    await vi.advanceTimersByTimeAsync(90_000);
    expect(look).toHaveBeenCalledTimes(3);
    page.visibilityState = "hidden";
    await vi.advanceTimersByTimeAsync(90_000);
    expect(look).toHaveBeenCalledTimes(3);
  });

  test("when the pane comes to the front", () => {
    page.visibilityState = "hidden";
    listeners.get("visibilitychange")?.();
    expect(look).not.toHaveBeenCalled();
    page.visibilityState = "visible";
    listeners.get("visibilitychange")?.();
    expect(look).toHaveBeenCalledOnce();
  });

  test("when a co-author changes cells, and not at every one of them", async () => {
    const change = (source: string) => Promise.all(book.changed.map((handler) => handler({ source })));
    await change("Local");
    expect(look).not.toHaveBeenCalled();
    for (let i = 0; i < 50; i++) await change("Remote");
    expect(look).toHaveBeenCalledTimes(1);
    await vi.advanceTimersByTimeAsync(5_000);
    expect(look).toHaveBeenCalledTimes(2);
    await vi.advanceTimersByTimeAsync(5_000);
    expect(look).toHaveBeenCalledTimes(2);
  });
});

describe("saving a file", () => {
  const clicked: { href: string; download: string }[] = [];
  const saveOn = (platform: string): "saved" | "shown" => {
    vi.stubGlobal("Office", {
      context: { platform },
      PlatformType: { PC: "PC", OfficeOnline: "OfficeOnline", Mac: "Mac", iOS: "iOS" },
    });
    vi.stubGlobal("document", {
      body: { append: () => undefined },
      createElement: () => ({
        href: "",
        download: "",
        click(this: { href: string; download: string }) {
          clicked.push({ href: this.href, download: this.download });
        },
        remove: () => undefined,
      }),
    });
    return pageFiles.save("instruments.json", "{}", "application/json");
  };

  test.each(["PC", "OfficeOnline"])("is offered on %s", (platform) => {
    clicked.length = 0;
    expect(saveOn(platform)).toBe("saved");
    expect(clicked).toEqual([
      { href: expect.stringMatching(/^blob:/) as string, download: "instruments.json" },
    ]);
  });

  test.each(["Mac", "iOS"])("is not pretended on %s, whose web view lets nothing be saved", (platform) => {
    clicked.length = 0;
    expect(saveOn(platform)).toBe("shown");
    expect(clicked).toEqual([]);
  });
});

test.each([
  [{ isDarkTheme: true }, "dark"],
  [{ isDarkTheme: false }, "light"],
  [{}, undefined],
  [undefined, undefined],
])("a theme of %j makes the page %s", (officeTheme, theme) => {
  const dataset: Record<string, string> = {};
  vi.stubGlobal("Office", { context: { officeTheme } });
  vi.stubGlobal("document", { documentElement: { dataset } });
  applyTheme();
  expect(dataset["theme"]).toBe(theme);
});
