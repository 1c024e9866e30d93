import { vi } from "vitest";
import { Secant } from "../../src/core/numeric/secant.js";

/**
 * How many secant steps a calculation takes to its answer; infinite where these do not lead there, and the slower search from
 * both ends of a range has to. Speed rests on it, while the answers are the same.
 */
export function secantSteps(work: () => unknown): number {
  const mayContinue = vi.spyOn(Secant.prototype, "mayContinue");
  const next = vi.spyOn(Secant.prototype, "next");
  try {
    work();
    return mayContinue.mock.results.at(-1)?.value === true ? next.mock.calls.length : Infinity;
  } finally {
    mayContinue.mockRestore();
    next.mockRestore();
  }
}
