// A thread that is watched: one that stands at the same case for too long is ended, and the case is known.
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";

/** Folder of the project. */
export const root = fileURLToPath(new URL("../../", import.meta.url));

/** Threads get scripts that need no translation; the engine stays in node_modules, as for the command. */
export async function bundleWorkers(...names: readonly string[]): Promise<void> {
  await build({
    entryPoints: names.map((name) => `${root}tests/fuzz/${name}.ts`),
    outdir: `${root}dist/test`,
    outExtension: { ".js": ".cjs" },
    bundle: true,
    platform: "node",
    format: "cjs",
    external: ["@univerjs/*", "@ironcalc/wasm"],
    // What tests/support says of its own place, which a bundle has not.
    define: { "import.meta.url": JSON.stringify(new URL("../support/tools.ts", import.meta.url).href) },
  });
}

/** What a worker is told: what to do, and where to note which case it is at. */
export interface Told<T> {
  readonly task: T;
  readonly at: Int32Array;
}

export type Ended<R> =
  | { readonly kind: "done"; readonly report: R }
  | { readonly kind: "hang"; readonly at: number }
  | { readonly kind: "crash"; readonly at: number; readonly error: string };

/** Seconds that one case may take: far more than any needs, on a machine that is busy. */
const LIMIT = 400;

/** Heap of a worker: a case that needs more is a mistake of ours. */
const HEAP_MB = 1500;

/** Runs a script that was bundled as a thread. It ends with one message, its report. */
export function watched<R>(name: string, task: unknown): Promise<Ended<R>> {
  const at = new Int32Array(new SharedArrayBuffer(4));
  const workerData: Told<unknown> = { task, at };
  const worker = new Worker(`${root}dist/test/${name}.cjs`, {
    workerData,
    resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
  });
  return new Promise((resolve) => {
    let [last, since] = [-1, 0];
    const watch = setInterval(() => {
      const now = at[0] ?? 0;
      since = now === last ? since + 1 : 0;
      last = now;
      if (since >= LIMIT) end({ kind: "hang", at: now });
    }, 1000);
    const end = (ended: Ended<R>): void => {
      clearInterval(watch);
      void worker.terminate();
      resolve(ended);
    };
    worker.on("message", (report: R) => {
      end({ kind: "done", report });
    });
    worker.on("error", (error) => {
      end({ kind: "crash", at: at[0] ?? 0, error: error.stack ?? String(error) });
    });
    worker.on("exit", () => {
      end({ kind: "crash", at: at[0] ?? 0, error: "ended without a report" });
    });
  });
}

/** Does several things, at most two at a time: the machine has other work. */
export async function twoAtATime<T>(items: readonly T[], run: (item: T) => Promise<void>): Promise<void> {
  const waiting = [...items];
  const lane = async (): Promise<void> => {
    for (let item = waiting.shift(); item !== undefined; item = waiting.shift()) await run(item);
  };
  await Promise.all([lane(), lane()]);
}
