import { performance } from "node:perf_hooks";
import { fileURLToPath } from "node:url";
import { loadFunctions } from "../support/functions-bundle.js";

function column(rows: number, value: (row: number) => number): number[][] {
  return Array.from({ length: rows }, (_, row) => [value(row)]);
}

/** A single cubic polynomial per row, read from and written to cells as SEASON does: the least that could be done. */
function cubic(readings: readonly (readonly number[])[]): number[][] {
  return readings.map(([x = 0]) => [-616.868 + x * (1111.14 + x * (-630.272 + x * 135.997))]);
}

function nanosecondsPerRow(rows: number, run: () => unknown): number {
  const repeats = Math.max(3, Math.min(50, Math.round(100_000 / rows)));
  run();
  const times = Array.from({ length: repeats }, () => {
    const begun = performance.now();
    run();
    return performance.now() - begun;
  }).sort((a, b) => a - b);
  return ((times[Math.floor(repeats / 2)] ?? NaN) * 1e6) / rows;
}

/** SEASON in one call over more and more batches, out of the bundle that ships. */
export function seasonTimes(): string[] {
  const { functions } = loadFunctions(fileURLToPath(new URL("../../dist", import.meta.url)));
  const season = functions.find("GYLE.SEASON")?.implementation;
  if (typeof season !== "function") throw new Error("The bundle has no SEASON.");
  return [1e3, 1e4, 1e5, 1e6].map((rows) => {
    const args = [
      column(rows, (row) => 1.04 + (row % 40) * 1e-3),
      column(rows, (row) => 12 + (row % 18)),
      column(rows, (row) => 1.008 + (row % 9) * 1e-3),
      column(rows, (row) => 10 + (row % 12)),
    ];
    const taken = nanosecondsPerRow(rows, () => season(...args));
    const least = nanosecondsPerRow(rows, () => cubic(args[0] ?? []));
    const whole = (taken * rows) / 1e6;
    return `${rows} rows: ${taken.toFixed(0)} ns per row (${whole.toFixed(1)} ms in all), ${(taken / least).toFixed(0)} × a cubic polynomial (${least.toFixed(0)} ns)`;
  });
}
