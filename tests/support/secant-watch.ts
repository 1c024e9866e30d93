import { vi } from "vitest";
import { Secant } from "../../src/core/numeric/secant.js";

/**
 * How many secant steps a calculation takes to its answer; infinite where these do not lead there, and the slower search from
 * both ends of a range has to. Speed rests on it, while the answers are the same.
 */
export function secantSteps(work: () => unknown): number {
  const goesOn = vi.spyOn(Secant.prototype, "goesOn");
  const next = vi.spyOn(Secant.prototype, "next");
  try {
    work();
    return goesOn.mock.results.at(-1)?.value === true ? next.mock.calls.length : Infinity;
  } finally {
    goesOn.mockRestore();
    next.mockRestore();
  }
}
