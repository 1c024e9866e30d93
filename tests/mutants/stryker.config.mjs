// npm run mutants: makes small changes to the code, one at a time, and looks whether some test notices.
// ROOM=core/beer npm run mutants goes through one room; without it, through the core and the functions.
import { room, sources } from "./room.mjs";

export default {
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  vitest: { configFile: "tests/mutants/vitest.config.mjs" },
  mutate: sources.map((folder) => `src/${folder}/**/*.ts`),
  mutator: {
    // Words are for people, and no test pins them; what code compares with is changed by the other mutators.
    excludedMutations: ["StringLiteral"],
  },
  // What is made once, as a file is loaded, would need all tests for each change.
  ignoreStatic: true,
  coverageAnalysis: "perTest",
  concurrency: 1,
  // Generous, so that a busy machine is not taken for a loop without end.
  timeoutMS: 5_000,
  timeoutFactor: 3,
  incremental: true,
  incrementalFile: `coverage/mutants/${room.replaceAll("/", "-")}.json`,
  reporters: ["progress-append-only", "clear-text"],
  clearTextReporter: { reportTests: false, logTests: false, allowColor: false, skipFull: true },
  ignorePatterns: ["dist", "coverage", "examples", "manifest.xml"],
  tempDirName: "coverage/mutants.tmp",
};
