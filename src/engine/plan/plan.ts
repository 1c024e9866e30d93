import type { Area } from "../../cells/area.js";
import { DependencyGraph } from "./dependency-graph.js";
import { around } from "../references/dynamic-references.js";
import type { FormulaCell } from "./formula-cells.js";
import { topologicalOrder, cycleThrough } from "./strong-components.js";
import { OutputIndex } from "./output-index.js";
import { placed } from "../references/templates.js";
import type { PositionedArea } from "../values.js";
import type { WrittenReference } from "../references/written-reference.js";

/** What to calculate, and in which order. Formulas are identified by their index in the list of all formulas. */
export interface Plan {
  /** Which formulas need which. */
  readonly graph: DependencyGraph;
  /**
   * Formulas to evaluate, each after those it needs: everything that depends on ours, what that needs in turn, and all
   * formulas with dynamic references, since only evaluating them shows whether they depend on ours.
   */
  readonly order: readonly number[];
  /** 1 for our formulas and those that depend on them: their new values belong in the workbook. */
  readonly patched: Uint8Array;
  /** 1 for the patched formulas and those that they need. */
  readonly needed: Uint8Array;
  /** The circular reference that a formula belongs to. */
  readonly cycles: ReadonlyMap<number, Cycle>;
  readonly outputs: OutputIndex;
}

/** A circular reference. */
export interface Cycle {
  /** One cycle: each formula needs the next, the last one needs the first. */
  readonly path: readonly number[];
  /** Whether one of ours is part of it. */
  readonly own: boolean;
}

/**
 * @param areas the cells that array formulas fill
 * @param found the cells read through dynamic references
 * @param known circular references that remain although an array in them was given up
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

/** The cells that a formula reads, as far as its text tells. */
export function readsOf(cell: FormulaCell): { readonly area: PositionedArea; readonly shared: boolean }[] {
  const { reads, spans } = cell.template;
  const areas = reads.map((read) => ({ area: placed(read, cell), shared: isFixed(read) }));
  if (!spans) return areas;
  // A range from one of these cells to another lies within their bounding area.
  const bySheet = new Map<number, PositionedArea>();
  for (const { area } of areas) bySheet.set(area.sheet, around(bySheet.get(area.sheet) ?? area, area));
  return [...bySheet.values()].map((area) => ({ area, shared: false }));
}

/** It means the same cells from every formula. */
function isFixed(reference: WrittenReference): boolean {
  return reference.topFixed && reference.leftFixed && reference.bottomFixed && reference.rightFixed;
}
