import { afterEach, expect, test, vi } from "vitest";
import type { Result } from "../../src/functions/contract/cell-value.js";
import { errorText } from "../support/cells.js";
import { instruments } from "../support/instruments.js";

// A fresh copy of the port for each test: once the instruments are there, they stay.
async function fresh() {
  vi.resetModules();
  const [{ call }, port, { HYDROMETER }] = await Promise.all([
    import("../../src/functions/contract/call.js"),
    import("../../src/functions/contract/instruments-port.js"),
    import("../../src/functions/cells/hydrometer-cell.js"),
  ]);
  const hydrometer = (...args: unknown[]): Result[][] | Promise<Result[][]> => call(HYDROMETER, args);
  return { ...port, hydrometer };
}

afterEach(() => {
  vi.useRealTimers();
});

test("a formula that names no instrument never waits", async () => {
  const { hydrometer } = await fresh();
  expect(hydrometer(1.046, 20)).toBeInstanceOf(Array);
  expect(hydrometer(1.046, 20, null)).toBeInstanceOf(Array);
  expect(hydrometer(1.046, 20, [[""]])).toBeInstanceOf(Array);
});

test("a formula that names one waits for a host that is still reading", async () => {
  const { hydrometer, useInstruments } = await fresh();
  const result = hydrometer(1.05, 20, "Starting glass");
  expect(result).toBeInstanceOf(Promise);
  useInstruments(instruments);
  expect((await result)[0]?.[0]).toBeCloseTo(1.05, 9);
  expect(hydrometer(1.05, 20, "Starting glass")).toBeInstanceOf(Array);
});

test("a host that never comes gives #N/A with a message when the time is up", async () => {
  vi.useFakeTimers();
  const { hydrometer, TIME_LIMIT_MS } = await fresh();
  const result = hydrometer(1.05, 20, "Starting glass");
  await vi.advanceTimersByTimeAsync(TIME_LIMIT_MS);
  expect(errorText((await result)[0]?.[0])).toMatch(
    /^#N\/A The instruments of this workbook could not be read yet/,
  );
});

test("a workbook without instruments says so", async () => {
  const { hydrometer, useInstruments } = await fresh();
  useInstruments({ version: 1, instruments: [] });
  const [[cell] = []] = await hydrometer(1.05, 20, "Starting glass");
  expect(errorText(cell)).toBe('#N/A There is no instrument "Starting glass": this workbook has none yet.');
});

test("instruments that cannot be read are said to be so, until there are some", async () => {
  const { hydrometer, refuseInstruments, useInstruments } = await fresh();
  refuseInstruments("they were written by a later version.");
  // There is nothing to wait for: a sheet that calculates at once would not get on.
  const refused = hydrometer(1.05, 20, "Starting glass");
  expect(refused).toBeInstanceOf(Array);
  const [[cell] = []] = await refused;
  expect(errorText(cell)).toMatch(
    /^#N\/A The instruments .* cannot be read: they were written by a later version\./,
  );
  expect(hydrometer(1.05, 20)).toBeInstanceOf(Array);
  // That cell has to be calculated again, and the host is told so once.
  expect(useInstruments(instruments)).toBe(true);
  expect(hydrometer(1.05, 20, "Starting glass")).toBeInstanceOf(Array);
  expect(useInstruments(instruments)).toBe(false);
});
