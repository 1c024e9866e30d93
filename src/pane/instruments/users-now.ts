import type { Pane } from "../pane.js";
import type { OurFormula } from "../ports/formulas-port.js";
import { usersOf } from "../parts/usage.js";

/**
 * The formulas that name an instrument now; the last search may be long ago.
 *
 * @returns undefined if the search was stopped or failed; the user was told
 */
export async function usersNow(pane: Pane, name: string): Promise<readonly OurFormula[] | undefined> {
  const found = await pane.attempts.telling(() => pane.recalculator.look());
  return found && usersOf(found, name);
}
