import type { Range } from "../refusal.js";

/** From a near start the secant is there in four steps or so, or not on its way. */
const MOST_STEPS = 8;

/**
 * Where a function reaches a value, sought by secant steps from a near start. The caller evaluates the function and decides
 * what is near enough, so that a step costs no more than that; whoever runs out of steps asks `invert`.
 */
export class Secant {
  private steps = 0;
  private by = 0;
  private before = 0;

  /**
   * @param x where to begin
   * @param slope how steep the function is there, about
   */
  constructor(
    public x: number,
    private slope: number,
  ) {}

  /** Whether to look at x: not where the steps lead out of a range, or have not got there for long. */
  mayContinue({ min, max }: Pick<Range, "min" | "max">): boolean {
    return this.steps < MOST_STEPS && this.x >= min && this.x <= max;
  }

  /** @param residual by how much the function is above the value at x */
  next(residual: number): void {
    if (this.steps > 0) this.slope = (residual - this.before) / this.by;
    this.steps += 1;
    this.before = residual;
    this.by = -residual / this.slope;
    this.x += this.by;
  }
}
