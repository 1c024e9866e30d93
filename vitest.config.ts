import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { BrowserFirst } from "./tests/support/order.js";

// The engine's ES modules cannot be loaded by Node as they are; its CommonJS files can.
const univer = (name: string): { find: RegExp; replacement: string } => ({
  find: new RegExp(`^@univerjs/${name}$`),
  replacement: fileURLToPath(new URL(`node_modules/@univerjs/${name}/lib/cjs/index.js`, import.meta.url)),
});

export default defineConfig({
  resolve: { alias: [univer("core"), univer("engine-formula")] },
  test: {
    include: ["tests/**/*.test.ts"],
    globalSetup: ["tests/support/built.ts"],
    setupFiles: ["tests/support/seeded.ts"],
    reporters: ["default", "./tests/support/reporter.ts"],
    testTimeout: 120_000, // to catch what hangs, however busy the machine
    hookTimeout: 60_000, // a browser starts slowly then
    maxWorkers: 2,
    sequence: { sequencer: BrowserFirst },
    // Files share what they import. Tests that need a module of their own reset it themselves.
    isolate: false,
    coverage: {
      include: ["src/core/**/*.ts"],
      reporter: ["text-summary"],
      // The science: each line and branch of it, or the run fails.
      thresholds: { "src/core/**/*.ts": { 100: true } },
    },
  },
});
