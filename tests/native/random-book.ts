import { diceFrom } from "../fuzz/dice.js";
import { ironCalc, libreOffice, ours } from "./engines.js";
import { Formulas } from "./formulas.js";
import { type Case, vote } from "./vote.js";

export interface Compared {
  readonly cases: readonly Case[];
  /** Formulas of which two copies in one book came to two values. */
  readonly torn: readonly string[];
  /** Why formulas are not calculated here. */
  readonly refusals: ReadonlyMap<string, string>;
}

/** Random formulas, one to three deep; the same for the same seed. */
export function randomFormulas(seed: number, count: number): string[] {
  const formulas = new Formulas(diceFrom(seed));
  return Array.from({ length: count }, (_, i) => formulas.any(1 + (i % 3)));
}

/** Calculates a book of random formulas by three engines. For ours each stands in it twice, the second time in another order. */
export async function compareEngines(seed: number, count: number): Promise<Compared> {
  const formulas = randomFormulas(seed, count);
  const dice = diceFrom(seed + 1);
  const shuffled = formulas
    .map((_, i) => ({ i, at: dice.below(2 ** 30) }))
    .sort((a, b) => a.at - b.at)
    .map(({ i }) => i);
  const { results, refusals } = ours([...formulas, ...shuffled.map((i) => formulas[i] ?? "")]);
  const torn = shuffled.flatMap((i, place) => {
    const [first, second] = [results[i], results[count + place]];
    return JSON.stringify(first) === JSON.stringify(second) ? [] : [formulas[i] ?? ""];
  });
  const cases = vote(formulas, results, await libreOffice(formulas), await ironCalc(formulas));
  return { cases, torn, refusals };
}

export function tally(cases: readonly Case[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { verdict } of cases) counts[verdict] = (counts[verdict] ?? 0) + 1;
  return counts;
}

/** One case in one line. */
export function told({ formula, ours: own, libreOffice: office, ironCalc: iron }: Case): string {
  const shown = (value: Case["ours"]): string =>
    typeof value === "object" && value !== null ? value.error : (JSON.stringify(value) ?? "nothing");
  return `=${formula} is ${shown(own)}, ${shown(office)} in LibreOffice, ${shown(iron)} in IronCalc`;
}
