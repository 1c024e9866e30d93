import { defineConfig } from "vitest/config";
import { tests } from "./room.mjs";

// Neither bundles nor browsers: what they are made of is tested without them.
export default defineConfig({
  test: {
    include: tests.map((folder) => `tests/${folder}/**/*.test.ts`),
    exclude: ["**/fermentation-recovery.test.ts"],
    testTimeout: 120_000,
    isolate: false,
  },
});
