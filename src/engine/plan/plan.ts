import type { Area } from "../../cells/area.js";
import { DependencyGraph } from "./dependency-graph.js";
import { around } from "../references/dynamic-references.js";
import type { FormulaCell } from "./formula-cells.js";
import { topologicalOrder, cycleThrough } from "./strong-components.js";
import { OutputIndex } from "./output-index.js";
import { placed } from "../references/templates.js";
import type { PositionedArea } from "../values.js";
import type { WrittenReference } from "../references/written-reference.js";

/** What to calculate, and in which order. Formulas are numbers, their places in the list of all formulas. */
export interface Plan {
  /** Which formulas need which. */
  readonly graph: DependencyGraph;
  /**
   * Formulas to see to, each after those it needs: what ours reach, what that needs, and whatever finds its cells by
   * calculation, because only then it is known whether ours reach it.
   */
  readonly order: readonly number[];
  /** 1 for those that our formulas reach, and for ours: their new values belong in the workbook. */
  readonly patched: Uint8Array;
  /** 1 for those that a patched formula needs, and for the patched ones themselves. */
  readonly needed: Uint8Array;
  /** The circular reference that a formula is part of. */
  readonly cycles: ReadonlyMap<number, Cycle>;
  readonly outputs: OutputIndex;
}

/** Formulas that need each other. */
export interface Cycle {
  /** One way round: each formula needs the next, the last one needs the first. */
  readonly path: readonly number[];
  /** One of ours is among them. */
  readonly own: boolean;
}

/**
 * @param areas the cells that array formulas fill
 * @param found the cells that formulas read which find them by calculation
 * @param known circular references that stay such though an array in them was given up
 */
export function makePlan(
  formulas: readonly FormulaCell[],
  areas: ReadonlyMap<number, Area>,
  found: ReadonlyMap<number, readonly PositionedArea[]>,
  known: ReadonlyMap<number, Cycle>,
): Plan {
  const count = formulas.length;
  const outputs = new OutputIndex(formulas, areas);
  const graph = DependencyGraph.build(
    count,
    (formula) => {
      const cell = formulas[formula];
      if (!cell) return [];
      const cells = found.get(formula);
      return cells ? [...readsOf(cell), ...cells.map((area) => ({ area, shared: true }))] : readsOf(cell);
    },
    outputs,
  );
  const { order, components } = topologicalOrder(graph);
  const cycles = new Map(known);
  for (const component of components) {
    const members = component.filter((node) => node < count);
    const own = members.some((formula) => formulas[formula]?.template.own);
    const cycle = { path: cycleThrough(graph, component, count), own };
    for (const formula of members) cycles.set(formula, cycle);
  }
  const all = formulas.map((_, formula) => formula);
  const ours = all.filter((formula) => formulas[formula]?.template.own);
  const patched = graph.transposed().reachable(ours, () => false);
  const isLeftAlone = (node: number): boolean => cycles.has(node) && patched[node] !== 1;
  const reached = all.filter((formula) => patched[formula] === 1);
  const needed = graph.reachable(reached, isLeftAlone);
  const asked = graph.reachable(
    [...reached, ...all.filter((formula) => formulas[formula]?.template.isDynamic)],
    isLeftAlone,
  );
  return {
    graph,
    order: [...order].filter((node) => node < count && asked[node] === 1),
    patched,
    needed,
    cycles,
    outputs,
  };
}

/** The cells that a formula reads as far as its text tells. */
export function readsOf(cell: FormulaCell): { readonly area: PositionedArea; readonly shared: boolean }[] {
  const { reads, spans } = cell.template;
  const areas = reads.map((read) => ({ area: placed(read, cell), shared: isFixed(read) }));
  if (!spans) return areas;
  // A range from one cell of these to another lies within the smallest area around them.
  const bySheet = new Map<number, PositionedArea>();
  for (const { area } of areas) bySheet.set(area.sheet, around(bySheet.get(area.sheet) ?? area, area));
  return [...bySheet.values()].map((area) => ({ area, shared: false }));
}

/** It means the same cells wherever the formula stands. */
function isFixed(reference: WrittenReference): boolean {
  return reference.topFixed && reference.leftFixed && reference.bottomFixed && reference.rightFixed;
}
