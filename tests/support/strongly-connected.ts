import { topologicalOrder } from "../../src/engine/plan/strong-components.js";

/** Groups of nodes of a graph that all lead to each other, of two or more nodes, or of one that leads to itself. */
export function stronglyConnected<T>(graph: ReadonlyMap<T, readonly T[]>): T[][] {
  const nodes = [...graph.keys()];
  const numbers = new Map(nodes.map((node, i) => [node, i]));
  const edges = [...graph.values()].map((others) => others.flatMap((other) => numbers.get(other) ?? []));
  const starts = [0];
  for (const { length } of edges) starts.push((starts.at(-1) ?? 0) + length);
  const targets = edges.flat();
  const { components } = topologicalOrder({
    nodeCount: nodes.length,
    start: (node) => starts[node] ?? 0,
    target: (edge) => targets[edge] ?? 0,
  });
  return components.map((component) => component.map((i) => nodes[i] as T).sort());
}
