// The last lines of a test run: what was not run, how to get it, and the count.
import type { Reporter, TestModule, Vitest } from "vitest/node";
import { tools } from "./tools.js";

export default class Closing implements Reporter {
  #measuresCoverage = false;
  #lines: readonly string[] = [];

  onInit({ config }: Vitest): void {
    this.#measuresCoverage = config.coverage.enabled;
  }

  onTestRunEnd(modules: readonly TestModule[]): void {
    let passed = 0;
    let failed = 0;
    let skipped = 0;
    for (const module of modules) {
      // A file that could not even be loaded counts as one failure.
      if (module.errors().length > 0) failed += 1;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === "passed") passed += 1;
        else if (state === "failed") failed += 1;
        else skipped += 1;
      }
    }
    this.#lines = [
      ...tools.flatMap(({ name, present, checks, install }) =>
        present ? [] : [`Not run without ${name}: ${checks}. To get it: ${install}`],
      ),
      `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} not run` : ""}`,
    ];
    if (!this.#measuresCoverage) this.#close();
  }

  /** Coverage is reported after the tests, and the count after that. */
  onFinishedReportCoverage(): void {
    this.#close();
  }

  #close(): void {
    for (const line of this.#lines) console.log(line);
  }
}
