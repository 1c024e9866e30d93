import type { DependencyGraph } from "./dependency-graph.js";

/**
 * Propagates changes, and doubts about formulas that were kept although they should have changed. Formulas are asked
 * about in order, each after those it needs.
 */
export class Taint {
  /** By node: 0 for unchanged, 1 for changed, 2 and above for kept. */
  readonly #states: Int32Array;
  readonly #known: Uint8Array;

  /** @param formulaCount nodes from this number on stand for several formulas */
  constructor(
    readonly graph: DependencyGraph,
    readonly formulaCount: number,
  ) {
    this.#states = new Int32Array(graph.nodeCount);
    this.#known = new Uint8Array(graph.nodeCount);
  }

  /** A formula has another value than before. */
  move(formula: number): void {
    this.#states[formula] = Math.max(1, this.#states[formula] ?? 0);
  }

  /** A formula was kept, and may be wrong. @param root the formula that is to blame */
  keep(formula: number, root: number): void {
    this.#states[formula] = root + 2;
  }

  /** Whether anything that a formula needs has changed or should have. */
  below(formula: number): boolean {
    return this.#below(formula) > 0;
  }

  /** The first kept formula that a formula needs, directly or indirectly. */
  keptBelow(formula: number): number | undefined {
    const state = this.#below(formula);
    return state >= 2 ? state - 2 : undefined;
  }

  #below(node: number): number {
    let state = 0;
    for (let edge = this.graph.start(node); edge < this.graph.start(node + 1); edge++)
      state = Math.max(state, this.#of(this.graph.target(edge)));
    return state;
  }

  #of(node: number): number {
    if (node < this.formulaCount) return this.#states[node] ?? 0;
    if (this.#known[node] !== 1) {
      this.#states[node] = this.#below(node);
      this.#known[node] = 1;
    }
    return this.#states[node] ?? 0;
  }
}
