import { defineConfig } from "vitest/config";
import { tests } from "./room.mjs";

// Neither bundles nor browsers: what they are made of is tested without them.
export default defineConfig({
  test: {
    include: tests.map((folder) => `tests/${folder}/**/*.test.ts`),
    // Thousands of random inputs a test, each a second or more: what is left suffices, and a change takes a tenth of the time.
    exclude: ["fermentation-recovery", "any-input", "every-scale"].map((name) => `tests/**/${name}.test.ts`),
    testTimeout: 120_000,
    isolate: false,
  },
});
