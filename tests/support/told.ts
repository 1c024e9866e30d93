import type { Listener, Step, Warning } from "../../src/core/steps.js";

/** What a calculation tells whoever listens. */
export function told(work: (to: Listener) => unknown): { steps: Step[]; warnings: Warning[] } {
  const [steps, warnings]: [Step[], Warning[]] = [[], []];
  work({ step: (step) => steps.push(step), warn: (warning) => warnings.push(warning) });
  return { steps, warnings };
}
