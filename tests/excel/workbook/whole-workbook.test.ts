import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { checkOpenWorkbook, handOver } from "../../../src/excel/workbook/whole-workbook.js";
import type { WorkerRequest, WorkerMessage } from "../../../src/worker/messages.js";

// The file as Excel gives it, in pieces: "PK" and a count.
const file = Uint8Array.from([80, 75, 3, 4, 5, 6, 7, 8]);
const copy = Uint8Array.from([80, 75, 9]);
const report = {
  formulas: 2,
  live: 1,
  values: 1,
  notLive: [{ sheet: "Log", row: 3, column: 12, why: "it takes a whole range at once" }],
  errors: [],
};

let opened: string[];
let closed: number;
let asked: WorkerRequest[];
let answer: WorkerMessage | "broken";
let terminated: number;

class FakeWorker {
  onmessage: (event: { data: WorkerMessage }) => void = () => undefined;
  onerror: (event: { message?: string }) => void = () => undefined;
  postMessage(message: WorkerRequest): void {
    asked.push(message);
    setTimeout(() => {
      if (answer === "broken") this.onerror({});
      else {
        this.onmessage({ data: { is: "progress", done: 1, total: 2 } });
        this.onmessage({ data: answer });
      }
    });
  }
  terminate(): void {
    terminated += 1;
    this.onmessage = () => undefined;
  }
}

const succeeded = (value?: unknown) => ({ status: "succeeded", value });

beforeEach(() => {
  opened = [];
  asked = [];
  closed = terminated = 0;
  answer = { is: "copy", bytes: copy, report };
  vi.stubGlobal("Worker", FakeWorker);
  vi.stubGlobal(
    "FileReader",
    class {
      result = "";
      onload = (): void => undefined;
      async readAsDataURL(blob: Blob): Promise<void> {
        this.result = `data:;base64,${Buffer.from(await blob.arrayBuffer()).toString("base64")}`;
        this.onload();
      }
    },
  );
  vi.stubGlobal("Excel", {
    run: (_options: object, work: (context: object) => unknown) => Promise.resolve(work({})),
    createWorkbook: (base64: string) => {
      opened.push(base64);
      return Promise.resolve({});
    },
  });
  vi.stubGlobal("Office", {
    FileType: { Compressed: "compressed" },
    AsyncResultStatus: { Succeeded: "succeeded" },
    context: {
      document: {
        getFileAsync: (_type: string, _options: object, done: (result: object) => void) => {
          done(
            succeeded({
              size: file.length,
              sliceCount: 2,
              getSliceAsync: (i: number, got: (result: object) => void) => {
                // Some hosts give plain numbers.
                got(succeeded({ data: Array.from(file.slice(5 * i, 5 * i + 5)) }));
              },
              closeAsync: () => {
                closed += 1;
              },
            }),
          );
        },
      },
    },
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

const work = { signal: new AbortController().signal, onProgress: () => undefined };

test("the open workbook is read in pieces, and its copy opened beside it", async () => {
  const progress = vi.fn();
  const told = await handOver("live", { ...work, onProgress: progress });
  const [{ date, ...rest } = { date: "" }] = asked as Extract<WorkerRequest, { wants: "copy" }>[];
  expect(rest).toEqual({ wants: "copy", bytes: file, way: "live" });
  expect(date).toMatch(/^\d{4}-\d\d-\d\d$/);
  expect(progress).toHaveBeenCalledWith(1, 2);
  expect(opened).toEqual([Buffer.from(copy).toString("base64")]);
  expect(told).toMatchObject({ formulas: 2, live: 1, notLive: [{ sheet: "Log", address: "M4" }] });
  expect([closed, terminated]).toEqual([1, 1]);
});

test("a workbook that cannot be handed over is refused with its reason, and nothing opens", async () => {
  answer = { is: "refused", why: "has a circular reference: Log!A1 → Log!A1" };
  await expect(handOver("values", work)).rejects.toThrow(
    "This workbook has a circular reference: Log!A1 → Log!A1.",
  );
  answer = "broken";
  await expect(handOver("values", work)).rejects.toThrow("The script that does this did not load.");
  expect([opened, closed, terminated]).toEqual([[], 2, 2]);
});

test("the workbook is checked as Excel would save it, and nothing opens", async () => {
  const repairs = [{ sheet: "Log", row: 8, column: 2, value: 1.05 }];
  answer = { is: "check", check: { sheets: [], findings: [], repairs } };
  expect(await checkOpenWorkbook(work)).toEqual({
    sheets: [],
    findings: [],
    unbound: [{ sheet: "Log", address: "C9" }],
  });
  expect(asked).toEqual([{ wants: "check", bytes: file }]);
  expect([opened, closed, terminated]).toEqual([[], 1, 1]);
});

test("it stops when it is told to, and leaves nothing running", async () => {
  const stop = new AbortController();
  const onProgress = (): void => {
    stop.abort(new Error("Stopped."));
  };
  await expect(handOver("values", { signal: stop.signal, onProgress })).rejects.toThrow("Stopped.");
  expect([opened, closed, terminated]).toEqual([[], 1, 1]);
});
