import { performance } from "node:perf_hooks";
import { fileURLToPath } from "node:url";
import { loadFunctions } from "../support/functions-bundle.js";
import { quantile, recover, stillness, type Found } from "../support/recovery.js";
import { randomFrom } from "../support/synthetic-log.js";

const RUNS = 9;

/** Each function over one log of 10,000 readings, out of the bundle that ships. */
export function fermentationTimes(): string[] {
  const { functions } = loadFunctions(fileURLToPath(new URL("../../dist", import.meta.url)));
  const random = randomFrom(1);
  const rows = Array.from({ length: 10_000 }, (_, i) => {
    const t = i / 600; // 16.7 days, a reading every 2.4 minutes
    const spike = random() < 0.01 ? 0.01 : 0;
    return [46_000 + t, 1.01 + 0.04 / (1 + Math.exp(1.4 * (t - 4))) + 0.001 * (random() - 0.5) + spike];
  });
  const range = (rows: readonly number[][], column: number) => rows.map((row) => [row[column]]);
  const early = rows.filter(([time = 0]) => time < 46_006.5);
  const iso = rows.map(([t = 0]) => [new Date((t - 25_569) * 86_400_000).toISOString()]);
  const [times, gravities] = [range(rows, 0), range(rows, 1)];
  const calls: readonly (readonly [string, readonly unknown[]])[] = [
    ["SMOOTH", [times, gravities]],
    ["SMOOTH", [iso, gravities]],
    ["RATE", [times, gravities]],
    ["REACHES", [times, gravities, 1.02]],
    ["REACHES", [range(early, 0), range(early, 1), 1.0105]],
    ["STEADY", [times, gravities]],
    ["STAGES", [times, gravities]],
  ];
  const labels = ["", " with ISO text", "", " reached", ` forecast (${early.length} readings)`, "", ""];
  return calls.map(([name, args], i) => {
    const run = functions.find(`GYLE.FERMENT.${name}`)?.implementation;
    if (typeof run !== "function") throw new Error(`The bundle has no ${name}.`);
    const times = Array.from({ length: RUNS }, () => {
      const begun = performance.now();
      run(...args);
      return performance.now() - begun;
    });
    const first = times[0] ?? NaN;
    return `FERMENT.${name}${labels[i] ?? ""}: ${quantile(times, 0.5).toFixed(0)} ms, first call ${first.toFixed(0)} ms`;
  });
}

function distribution(found: readonly Found[]): string {
  const hours = found.map(({ error }) => 24 * Math.abs(error));
  const shares = [0.5, 0.9, 0.99, 1].map((share) => quantile(hours, share).toFixed(1));
  const within = found.filter(({ error, bound }) => Math.abs(error) <= bound).length / found.length;
  const bias = (24 * found.reduce((sum, { error }) => sum + error, 0)) / found.length;
  return `${found.length} found; off by ${shares.join(", ")} h (median, 90 %, 99 %, worst), mean ${bias.toFixed(1)} h; ${(100 * within).toFixed(1)} % within their bounds`;
}

/** A thousand synthetic logs: how far off the times are that are found in them. */
export function fermentationRecovery(): string[] {
  const { started, steady, reached, forecast, missed, refused, sugar, ghosts } = recover(
    Array.from({ length: 1000 }, (_, i) => i + 1),
  );
  const { asked, calledSteady, still, stillMissed } = stillness(Array.from({ length: 300 }, (_, i) => i + 1));
  const falling = (points: number): number => calledSteady.filter((fall) => fall > points).length;
  const refusals = [...refused].map(([kind, count]) => `${kind} ${count}`).join(", ");
  return [
    `started: ${distribution(started)}; ${missed.started} missed`,
    `steady: ${distribution(steady)}; ${missed.steady} missed`,
    `reached: ${distribution(reached)}`,
    `forecast: ${distribution(forecast)}; refused: ${refusals}`,
    `300 of them asked every day, ${asked} times, whether they stand still: TRUE ${calledSteady.length} times, of which the truth fell by more than 1 point in three days (or sugar came) ${falling(1)} times, 1.5 points ${falling(1.5)}, 2 points ${falling(2)}; FALSE ${stillMissed} of ${still} times that it fell by 0.7 or less`,
    `sugar found in ${sugar.foundDense} of ${sugar.dense} dense logs and ${sugar.foundByHand} of ${sugar.byHand} by hand; where there was none, in ${ghosts}`,
  ];
}
