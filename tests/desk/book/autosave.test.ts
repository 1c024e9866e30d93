// Work in progress is kept in the browser's database, which takes its time; meanwhile another workbook may be opened.
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Edits } from "../../../src/desk/book/open-book.js";
import { Autosave } from "../../../src/desk/book/autosave.js";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const later = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** A database for one draft, each of whose operations takes 20 ms. */
class SlowDrafts {
  file: string | undefined;
  draft: string | undefined;
  begin = async (bytes: Uint8Array): Promise<void> => {
    await later(20);
    [this.file, this.draft] = [new TextDecoder().decode(bytes), undefined];
  };
  keep = async (name: string): Promise<void> => {
    await later(20);
    this.draft = name;
  };
  end = async (): Promise<void> => {
    await later(20);
    [this.file, this.draft] = [undefined, undefined];
  };
  leftBehind = () => Promise.resolve([]);
  fileOf = () => Promise.resolve(undefined);
  drop = () => Promise.resolve();
}

/** A workbook whose edits are known only after a while. */
const workbook = (name: string, takes: number) => ({
  name,
  bytes: new TextEncoder().encode(name),
  edits: async (): Promise<Edits> => {
    await later(takes);
    return { changes: [], extras: { customXml: [], droppedCustomXml: [] } };
  },
});

test.each([0, 5, 15, 25, 35, 50])(
  "a draft that is being kept is not mixed up with one begun %i ms later",
  async (ms) => {
    const drafts = new SlowDrafts();
    const keeping = new Autosave(() => undefined, drafts);
    void keeping.now(workbook("first", 30));
    await vi.advanceTimersByTimeAsync(ms);
    // The first is saved, or given up, and another one opened and changed.
    void keeping.end();
    const kept = keeping.now(workbook("second", 1));
    await vi.runAllTimersAsync();
    expect(await kept).toBe(true);
    expect([drafts.file, drafts.draft]).toEqual(["second", "second"]);
  },
);

test("what is saved leaves no draft behind, however late its edits are known", async () => {
  const drafts = new SlowDrafts();
  const keeping = new Autosave(() => undefined, drafts);
  const kept = keeping.now(workbook("first", 200));
  await vi.advanceTimersByTimeAsync(10);
  void keeping.end();
  await vi.runAllTimersAsync();
  expect(await kept).toBe(false);
  expect([drafts.file, drafts.draft]).toEqual([undefined, undefined]);
});

test("what cannot be kept is said, and not taken for kept", async () => {
  const failed = vi.fn();
  const drafts = Object.assign(new SlowDrafts(), { keep: () => Promise.reject(new Error("full")) });
  const kept = new Autosave(failed, drafts).now(workbook("first", 1));
  await vi.runAllTimersAsync();
  expect(await kept).toBe(false);
  expect(failed).toHaveBeenCalledOnce();
});
