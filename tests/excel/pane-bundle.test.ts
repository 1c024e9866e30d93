import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";

const script = readFileSync(new URL("../../dist/pane.js", import.meta.url), "utf8");

test("the pane's bundle is under 150 kB gzip", () => {
  expect(gzipSync(script).length).toBeLessThan(150_000);
});

test("the pane's bundle asks no server for anything", () => {
  expect(script).not.toMatch(/\bfetch\(|XMLHttpRequest|WebSocket|sendBeacon|EventSource|import\(/);
});

test("the functions are not in it a second time", () => {
  // A sentence that only their code has.
  const functions = readFileSync(new URL("../../dist/functions.js", import.meta.url), "utf8");
  const sentence = "This calculation failed inside Gylesheet.";
  expect(functions).toContain(sentence);
  expect(script).not.toContain(sentence);
});
