// npm run fuzz: random input, more of it than the tests have time for. The same seed gives the same input.
import { performance } from "node:perf_hooks";
import { parseArgs } from "node:util";
import { fuzzBooks, fuzzCommand } from "./fuzz-books.js";
import { fuzzForeign } from "./fuzz-foreign.js";
import { fuzzFunctions } from "./fuzz-functions.js";
import { fuzzNative } from "./fuzz-native.js";
import { fuzzTyping } from "./fuzz-typing.js";

const USAGE = `npm run fuzz [-- options]
  --function ABV   this function only
  --functions      no workbooks
  --workbooks      no functions
  --native         native formulas only, by three engines
  --foreign DIR    nothing but the workbooks of a folder, with formulas of ours planted in them
  --typing         nothing but 500 formulas, typed at the desk key by key
  --seed 1         where to begin
  --runs 100000    calls of each function
  --books 10000    mutated workbooks
  --formulas 20000 native formulas
`;

const { values } = parseArgs({
  options: {
    function: { type: "string" },
    functions: { type: "boolean", default: false },
    workbooks: { type: "boolean", default: false },
    native: { type: "boolean", default: false },
    foreign: { type: "string" },
    typing: { type: "boolean", default: false },
    seed: { type: "string", default: "1" },
    runs: { type: "string", default: "100000" },
    books: { type: "string", default: "10000" },
    formulas: { type: "string", default: "20000" },
    help: { type: "boolean", default: false },
  },
});

async function main(): Promise<void> {
  if (values.help) {
    console.log(USAGE);
    return;
  }
  const begun = performance.now();
  const seed = Number(values.seed);
  const failures: string[] = [];
  if (values.native) failures.push(...(await fuzzNative(seed, Number(values.formulas))));
  else if (values.typing) failures.push(...fuzzTyping());
  else if (values.foreign !== undefined) failures.push(...(await fuzzForeign(values.foreign, seed)));
  else await generated(seed, failures);
  for (const failure of failures) console.log(`FAILED ${failure}`);
  console.log(`${failures.length} failures, ${((performance.now() - begun) / 1000).toFixed(0)} s`);
  process.exitCode = failures.length > 0 ? 1 : 0;
}

async function generated(seed: number, failures: string[]): Promise<void> {
  if (!values.workbooks) failures.push(...(await fuzzFunctions(values.function, seed, Number(values.runs))));
  if (!values.functions && values.function === undefined) {
    const books = Number(values.books);
    failures.push(...(await fuzzBooks(seed, books)), ...fuzzCommand(seed, Math.ceil(books / 100)));
  }
}

await main();
