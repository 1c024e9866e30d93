import type { DependencyGraph } from "./dependency-graph.js";

/** Nodes by number, and their edges in compressed rows. */
export type Graph = Pick<DependencyGraph, "nodeCount" | "start" | "target">;

export interface Ordering {
  /** All nodes, each after everything it needs, except within cycles. */
  readonly order: Int32Array;
  /**
   * Strongly connected components of more than one node, and single nodes with an edge to themselves; inner nodes of
   * the segment trees included.
   */
  readonly components: readonly (readonly number[])[];
}

/** Tarjan's algorithm for strongly connected components (SIAM J. Comput. 1, 1972, 146–160), without recursion. */
export function topologicalOrder(graph: Graph): Ordering {
  const { nodeCount } = graph;
  const found = new Int32Array(nodeCount).fill(-1);
  const low = new Int32Array(nodeCount);
  const onStack = new Uint8Array(nodeCount);
  const nextEdge = new Int32Array(nodeCount);
  const order = new Int32Array(nodeCount);
  const components: number[][] = [];
  const stack: number[] = [];
  const path: number[] = [];
  let clock = 0;
  let placed = 0;

  const enter = (node: number): void => {
    found[node] = low[node] = clock++;
    nextEdge[node] = graph.start(node);
    onStack[node] = 1;
    stack.push(node);
    path.push(node);
  };
  const leave = (node: number): void => {
    path.pop();
    const above = path.at(-1);
    if (above !== undefined) low[above] = Math.min(low[above] ?? 0, low[node] ?? 0);
    if (low[node] !== found[node]) return;
    const members: number[] = [];
    let member: number | undefined;
    do {
      member = stack.pop();
      if (member === undefined) break;
      onStack[member] = 0;
      order[placed++] = member;
      members.push(member);
    } while (member !== node);
    if (members.length > 1 || hasSelfLoop(graph, node)) components.push(members);
  };

  for (let root = 0; root < nodeCount; root++) {
    if (found[root] !== -1) continue;
    enter(root);
    for (let node = path.at(-1); node !== undefined; node = path.at(-1)) {
      const edge = nextEdge[node] ?? 0;
      if (edge === graph.start(node + 1)) {
        leave(node);
        continue;
      }
      nextEdge[node] = edge + 1;
      const target = graph.target(edge);
      if (found[target] === -1) enter(target);
      else if (onStack[target] === 1) low[node] = Math.min(low[node] ?? 0, found[target] ?? 0);
    }
  }
  return { order, components };
}

/**
 * A shortest cycle through the first formula of a component: each formula needs the next, the last one needs the first.
 *
 * @param formulaCount nodes from this number on are inner nodes of the segment trees
 */
export function cycleThrough(
  graph: DependencyGraph,
  component: readonly number[],
  formulaCount: number,
): number[] {
  const members = new Set(component);
  const start = Math.min(...component);
  const from = new Map<number, number>();
  const open = [start];
  for (const node of open) {
    for (let edge = graph.start(node); edge < graph.start(node + 1); edge++) {
      const target = graph.target(edge);
      if (target === start) {
        const cycle = [node];
        for (let step = node; step !== start;) {
          step = from.get(step) ?? start;
          cycle.push(step);
        }
        return cycle.reverse().filter((step) => step < formulaCount);
      }
      if (members.has(target) && !from.has(target)) {
        from.set(target, node);
        open.push(target);
      }
    }
  }
  return [start];
}

function hasSelfLoop(graph: Graph, node: number): boolean {
  for (let edge = graph.start(node); edge < graph.start(node + 1); edge++) {
    if (graph.target(edge) === node) return true;
  }
  return false;
}
