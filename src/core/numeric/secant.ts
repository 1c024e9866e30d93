import type { Range } from "../refusal.js";

/** From a good guess the secant method converges in about four steps, or not at all. */
const MAX_STEPS = 8;

/**
 * Secant method from a good initial guess. The caller evaluates the function and decides when to stop, so a step costs
 * little more than the evaluation; if it runs out of steps, `invert` takes over.
 */
export class Secant {
  private steps = 0;
  private by = 0;
  private before = 0;

  /**
   * @param x initial guess
   * @param slope approximate slope of the function there
   */
  constructor(
    public x: number,
    private slope: number,
  ) {}

  /** Whether to evaluate at x: there are steps left, and it lies within the range. */
  mayContinue({ min, max }: Pick<Range, "min" | "max">): boolean {
    return this.steps < MAX_STEPS && this.x >= min && this.x <= max;
  }

  /** @param residual function value at x minus the target */
  next(residual: number): void {
    if (this.steps > 0) this.slope = (residual - this.before) / this.by;
    this.steps += 1;
    this.before = residual;
    this.by = -residual / this.slope;
    this.x += this.by;
  }
}
