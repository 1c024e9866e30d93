import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    globalSetup: ["tests/support/built.ts"],
    reporters: ["default"],
    testTimeout: 30_000,
  },
});
