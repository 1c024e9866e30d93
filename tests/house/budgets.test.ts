import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";

// What everyone who opens a workbook waits for, in kilobytes as a host sends them.
const budgets = {
  "functions.js": 60,
  "pane.js": 150,
  /** Loaded when a workbook is checked or handed over. */
  "worker.js": 700,
} as const;

test.each(Object.entries(budgets))("%s stays within %i kB", (file, most) => {
  const bytes = readFileSync(new URL(`../../dist/${file}`, import.meta.url));
  expect(gzipSync(bytes, { level: 9 }).length / 1000).toBeLessThanOrEqual(most);
});
