import type { OutputIndex } from "./output-index.js";
import type { PositionedArea } from "../values.js";

/**
 * Which formulas need which. Nodes are the formulas, by number, followed by the inner nodes of a segment tree over the
 * formulas of each column, so that a range of any length takes a handful of edges and thousands of running ranges cost
 * no more than their number. An edge leads to what is needed.
 */
export class DependencyGraph {
  readonly nodeCount: number;
  /** Adjacency in compressed rows: the edges of a node are those from its start up to the start of the next node. */
  readonly #starts: Int32Array;
  readonly #targets: Int32Array;

  private constructor(starts: ArrayLike<number>, targets: ArrayLike<number>) {
    this.nodeCount = starts.length - 1;
    this.#starts = Int32Array.from(starts);
    this.#targets = Int32Array.from(targets);
  }

  /** @param readsOf the areas a formula reads; "shared" ones, common to many formulas, get one node for all */
  static build(
    formulaCount: number,
    readsOf: (formula: number) => readonly { readonly area: PositionedArea; readonly shared: boolean }[],
    outputs: OutputIndex,
  ): DependencyGraph {
    const starts: number[] = [];
    const targets: number[] = [];
    const trees = new Map<string, number>();
    let nodes = formulaCount;
    for (const [sheet, column, { rows }] of outputs.columns()) {
      // The segment tree numbers its nodes from 1, leaves last; the leaves are the formulas themselves.
      trees.set(`${sheet},${column}`, nodes - 1);
      nodes += rows.length - 1;
    }

    const stretch = (area: PositionedArea): void => {
      outputs.visit(area, ({ rows, formulas }, first, end, column) => {
        const base = trees.get(`${area.sheet},${column}`) ?? 0;
        const count = rows.length;
        const add = (node: number): void => {
          targets.push(node >= count ? (formulas[node - count] ?? 0) : base + node);
        };
        for (let low = first + count, high = end + count; low < high; low >>= 1, high >>= 1) {
          if (low & 1) add(low++);
          if (high & 1) add(--high);
        }
      });
    };

    const shared = new Map<string, { readonly node: number; readonly area: PositionedArea }>();
    for (let formula = 0; formula < formulaCount; formula++) {
      starts.push(targets.length);
      for (const read of readsOf(formula)) {
        const { sheet, top, left, bottom, right } = read.area;
        if (top === bottom && left === right) {
          const output = outputs.at(sheet, top, left);
          if (output !== undefined) targets.push(output);
        } else if (read.shared) {
          const key = `${sheet},${top},${left},${bottom},${right}`;
          let range = shared.get(key);
          if (!range) shared.set(key, (range = { node: nodes + shared.size, area: read.area }));
          targets.push(range.node);
        } else stretch(read.area);
      }
    }
    for (const [sheet, column, { rows, formulas }] of outputs.columns()) {
      const base = trees.get(`${sheet},${column}`) ?? 0;
      const count = rows.length;
      for (let node = 1; node < count; node++) {
        starts.push(targets.length);
        for (const child of [2 * node, 2 * node + 1]) {
          targets.push(child >= count ? (formulas[child - count] ?? 0) : base + child);
        }
      }
    }
    for (const { area } of shared.values()) {
      starts.push(targets.length);
      stretch(area);
    }
    starts.push(targets.length);
    return new DependencyGraph(starts, targets);
  }

  /** Where the edges of a node begin and end, for use with {@link target}. */
  start(node: number): number {
    return this.#starts[node] ?? 0;
  }

  target(edge: number): number {
    return this.#targets[edge] ?? 0;
  }

  /** The transposed graph: edges lead from what is needed to what needs it. */
  transposed(): DependencyGraph {
    const counts = new Int32Array(this.nodeCount + 1);
    for (const target of this.#targets) counts[target + 1] = (counts[target + 1] ?? 0) + 1;
    for (let node = 0; node < this.nodeCount; node++) {
      counts[node + 1] = (counts[node + 1] ?? 0) + (counts[node] ?? 0);
    }
    const starts = counts.slice();
    const targets = new Int32Array(this.#targets.length);
    for (let node = 0; node < this.nodeCount; node++) {
      for (let edge = this.start(node); edge < this.start(node + 1); edge++) {
        const target = this.target(edge);
        const place = counts[target] ?? 0;
        targets[place] = node;
        counts[target] = place + 1;
      }
    }
    return new DependencyGraph(starts, targets);
  }

  /**
   * Marks by 1 all nodes that can be reached, including the starting ones. Blocked nodes are marked but not passed
   * through.
   */
  reachable(from: Iterable<number>, blocked: (node: number) => boolean): Uint8Array {
    const reached = new Uint8Array(this.nodeCount);
    const open: number[] = [];
    for (const node of from) {
      if (reached[node] === 0) {
        reached[node] = 1;
        open.push(node);
      }
    }
    for (let node = open.pop(); node !== undefined; node = open.pop()) {
      if (blocked(node)) continue;
      for (let edge = this.start(node); edge < this.start(node + 1); edge++) {
        const target = this.target(edge);
        if (reached[target] === 0) {
          reached[target] = 1;
          open.push(target);
        }
      }
    }
    return reached;
  }
}
