// What holds for every workbook that recalc is given.
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Way } from "../../src/handover/way.js";
import type { FunctionsBundle } from "../support/functions-bundle.js";
import { recalculateFile, type FileOutcome } from "../../src/recalc/recalculate-file.js";
import { causeOf } from "../../src/recalc/refusal.js";
import { same, wrongInOutput } from "./book-output.js";

export interface Dealt {
  readonly kind: "written" | "nothing new" | "refused";
  /** What is broken of what is promised. */
  readonly broken: string | undefined;
}

/** What is asked for beside a recalculation. */
export interface AskedFor {
  /** Or into another file, as every copy. */
  readonly inPlace: boolean;
  readonly handOver: Way | undefined;
  readonly repair: boolean;
}

/** Gives a workbook to the command's own code, in a folder of its own. */
export async function dealtWith(bytes: Uint8Array, asked: AskedFor, bundle: FunctionsBundle): Promise<Dealt> {
  const { inPlace } = asked;
  const folder = mkdtempSync(join(tmpdir(), "fuzz-"));
  const input = join(folder, "in.xlsx");
  const output = inPlace ? input : join(folder, "out.xlsx");
  try {
    writeFileSync(input, bytes);
    const ended = await attempt(input, output, asked, bundle);
    const left = readdirSync(folder).filter((name) => !["in.xlsx", "out.xlsx"].includes(name));
    if (left.length > 0) return { kind: "refused", broken: `leaves ${left.join(", ")}` };
    if (typeof ended === "string") {
      const isSentence =
        /^[^\n\r]{5,2000}$/.test(ended) && !/undefined|\[object|NaN/.test(ended.replace(/".*"/s, ""));
      if (!isSentence) return { kind: "refused", broken: `refuses with ${JSON.stringify(ended)}` };
      const untouched = same(readFileSync(input), bytes) && (inPlace || !existsSync(output));
      return { kind: "refused", broken: untouched ? undefined : "writes although it refuses" };
    }
    if (!inPlace && !same(readFileSync(input), bytes))
      return { kind: "written", broken: "writes to the input" };
    if (!ended.written)
      return { kind: "nothing new", broken: same(readFileSync(input), bytes) ? undefined : "writes unsaid" };
    const broken =
      (await wrongInOutput(bytes, readFileSync(output), ended, asked, bundle.functions)) ??
      (asked.repair ? await leftToRepair(output, asked, bundle) : undefined);
    return { kind: "written", broken };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** @returns what came of it, or why it is refused. @throws what is no refusal: a mistake of ours */
async function attempt(
  input: string,
  output: string,
  { handOver, repair }: AskedFor,
  bundle: FunctionsBundle,
): Promise<FileOutcome | string> {
  const settings = { handOver, check: false, repair, changes: undefined };
  const onProgress = (): void => undefined;
  try {
    return await recalculateFile(
      { input, output },
      { ...bundle, settings, instruments: undefined, date: "2026-03-01", onProgress },
    );
  } catch (error) {
    const cause = causeOf(error);
    if (cause === undefined) throw error;
    return cause;
  }
}

/** What was written anew is tied to our functions. */
async function leftToRepair(
  path: string,
  asked: AskedFor,
  bundle: FunctionsBundle,
): Promise<string | undefined> {
  const again = await attempt(path, path, asked, bundle);
  if (typeof again === "string") return `is refused once it is repaired: ${again}`;
  return again.repaired === 0 ? undefined : `has ${again.repaired} formulas to repair once it is repaired`;
}
