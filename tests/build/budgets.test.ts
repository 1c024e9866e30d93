import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";

// What everyone who opens a workbook, the pane or the desk has to fetch, in bytes as a server sends them.
test.each([
  ["functions.js", 60_000],
  ["pane.js", 150_000],
])("%s stays below its budget of %i bytes, gzipped", (file, most) => {
  const bytes = readFileSync(new URL(`../../dist/${file}`, import.meta.url));
  expect(gzipSync(bytes).length).toBeLessThanOrEqual(most);
});

test("all scripts and styles that the desk's page asks for stay below 2.3 MB, gzipped", () => {
  const page = readFileSync(new URL("../../dist/desk/index.html", import.meta.url), "utf8");
  const files = [...page.matchAll(/(?:src|href)="([^":]+\.(?:js|css))"/g)].map(([, name = ""]) => name);
  expect(files.length).toBeGreaterThan(1);
  const sizes = files.map(
    (name) => gzipSync(readFileSync(new URL(`../../dist/desk/${name}`, import.meta.url))).length,
  );
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(2_300_000);
});
