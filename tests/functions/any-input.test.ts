import fc from "fast-check";
import { expect, test } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import { useInstruments } from "../../src/functions/contract/instruments-port.js";
import { anyArguments } from "../support/any-arguments.js";
import { called, stable } from "../support/cell-contract.js";
import { instruments } from "../support/instruments.js";

useInstruments(instruments);

// A slice of what "npm run fuzz" goes through.
for (const spec of catalogue)
  test(`${spec.name} turns any input into finite numbers, text, blanks or errors with a message`, () => {
    fc.assert(
      fc.property(anyArguments(spec), (args) => {
        const { cells, broken } = called(spec, args);
        expect(broken).toBeUndefined();
        expect(stable(spec, args, cells)).toBeUndefined();
      }),
      { numRuns: 150 },
    );
  });
