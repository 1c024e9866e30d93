// The last lines of a test run: what was not run, how to get it, and the count.
import type { Reporter, TestModule } from "vitest/node";
import { tools } from "./tools.js";

export default class Closing implements Reporter {
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
    // Vitest itself still reports on coverage, and fails the run for it.
    process.once("exit", (status) => {
      for (const { name, present, checks, install } of tools)
        if (!present) console.log(`Not run without ${name}: ${checks}. To get it: ${install}`);
      if (status !== 0 && failed === 0) console.log("The run failed, though no test did: see above for why.");
      console.log(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} not run` : ""}`);
    });
  }
}
