// Fermentation logs as they are kept, with accidents: for functions that read one.
import fc, { type Arbitrary } from "fast-check";
import { syntheticLog } from "./synthetic-log.js";

const accidents: readonly ((row: readonly [number, number]) => readonly unknown[])[] = [
  ([time]) => [time, null],
  ([, gravity]) => [0, gravity],
  ([time]) => [time, 0],
  ([time]) => [time, { code: "#N/A" }],
  ([time]) => [time, "n/a"],
  ([, gravity]) => ["yesterday", gravity],
  ([, gravity]) => ["2026-03-01T18:30Z", gravity],
  ([time, gravity]) => [time, gravity * 1000],
  ([time, gravity]) => [time - 3, gravity],
  ([time, gravity]) => [time, gravity + 0.05],
  ([time]) => [time, 9.99],
  ([time, gravity]) => [Math.floor(time), gravity],
];

/** A log of an invented fermentation from `from` on, every so many readings of it, with some rows that went wrong. */
export const anyLog: Arbitrary<readonly [times: unknown[][], gravities: unknown[][]]> = fc
  .record({
    seed: fc.integer({ min: 0, max: 5000 }),
    share: fc.integer({ min: 1, max: 100 }),
    most: fc.constantFrom(5, 12, 12, 30, 30, 30, 200),
    wrong: fc.array(fc.tuple(fc.nat(400), fc.nat(accidents.length - 1)), { maxLength: 3 }),
    isClean: fc.boolean(),
  })
  .map(({ seed, share, most, wrong, isClean }) => {
    const { readings } = syntheticLog(seed);
    const part = readings.slice(0, Math.ceil((readings.length * share) / 100));
    const every = Math.ceil(part.length / most);
    const rows: (readonly unknown[])[] = part
      .filter((_, i) => i % every === 0)
      .map(({ time, gravity }) => [46_000 + time, 1 + gravity / 1000]);
    if (!isClean)
      for (const [at, how] of wrong) {
        const row = rows[at % rows.length] as readonly [number, number] | undefined;
        if (row) rows[at % rows.length] = accidents[how]?.(row) ?? row;
      }
    return [rows.map((row) => [row[0]]), rows.map((row) => [row[1]])] as const;
  });
