/**
 * Groups of nodes of a graph that all lead to each other, of two or more nodes.
 *
 * Tarjan, SIAM J. Comput. 1 (1972) 146–160.
 */
export function stronglyConnected<T>(graph: ReadonlyMap<T, readonly T[]>): T[][] {
  const order = new Map<T, number>();
  const low = new Map<T, number>();
  const stack: T[] = [];
  const groups: T[][] = [];

  const lower = (node: T, to: number): void => {
    low.set(node, Math.min(low.get(node) ?? to, to));
  };

  const visit = (node: T): void => {
    order.set(node, order.size);
    lower(node, order.size - 1);
    stack.push(node);
    for (const next of graph.get(node) ?? []) {
      if (!order.has(next)) visit(next);
      if (stack.includes(next)) lower(node, low.get(next) ?? 0);
    }
    if (low.get(node) !== order.get(node)) return;
    const group = stack.splice(stack.indexOf(node));
    if (group.length > 1) groups.push(group.sort());
  };

  for (const node of graph.keys()) if (!order.has(node)) visit(node);
  return groups;
}
