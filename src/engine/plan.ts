import type { Area } from "../workbook/model.js";
import { DependencyGraph } from "./dependency-graph.js";
import type { FormulaCell } from "./formula-cells.js";
import { orderOf, wayRound } from "./loops.js";
import { OutputIndex } from "./output-index.js";
import type { WrittenReference } from "./written-reference.js";
import { placed } from "./templates.js";

/** What to calculate, and in which order. Formulas are numbers, their places in the list of all formulas. */
export interface Plan {
  /** Loops that leave no result that could be trusted; if there are any, the rest is empty. */
  readonly loops: readonly (readonly number[])[];
  /** Formulas to evaluate, each after those it needs. */
  readonly order: readonly number[];
  /** 1 for those whose new values belong in the workbook: ours, and what depends on them. */
  readonly patched: Uint8Array;
  /** 1 for those that a patched formula needs, as far as their text tells, and for the patched ones themselves. */
  readonly needed: Uint8Array;
  /** Formulas that would have been evaluated but keep their stored values. */
  readonly kept: readonly number[];
  /** Some formula decides only when evaluated which cells it reads, so order alone does not suffice. */
  readonly wanders: boolean;
  readonly outputs: OutputIndex;
}

/**
 * @param areas the cells that array formulas fill
 * @param frozen formulas that cannot be evaluated and count as constants
 * @param iterates the workbook lets loops iterate, so those that do not need our functions may stand
 */
export function makePlan(
  formulas: readonly FormulaCell[],
  areas: ReadonlyMap<number, Area>,
  frozen: (formula: number) => boolean,
  iterates: boolean,
): Plan {
  const count = formulas.length;
  const outputs = new OutputIndex(formulas, areas);
  const graph = DependencyGraph.build(
    count,
    (formula) => {
      const cell = formulas[formula];
      return cell
        ? cell.template.reads.map((read) => ({ area: placed(read, cell), shared: isFixed(read) }))
        : [];
    },
    outputs,
  );
  const { order, knots } = orderOf(graph);
  const none = {
    order: [],
    patched: new Uint8Array(count),
    needed: new Uint8Array(count),
    kept: [],
    wanders: false,
    outputs,
  };
  const waysRound = (of: readonly (readonly number[])[]): number[][] =>
    of.map((knot) => wayRound(graph, knot, count));
  if (knots.length > 0 && !iterates) return { ...none, loops: waysRound(knots) };

  const wandering = formulas.flatMap(({ template }, formula) =>
    template.wanders && !frozen(formula) ? [formula] : [],
  );
  const own = formulas.flatMap(({ template }, formula) => (template.own ? [formula] : []));
  const seeds = own.length > 0 ? [...own, ...wandering] : [];
  const patched = graph.reversed().reach(seeds, (node) => node < count && frozen(node));
  const touched = knots.filter((knot) => knot.some((node) => patched[node] === 1));
  if (touched.length > 0) return { ...none, loops: waysRound(touched) };

  const inLoops = new Set(knots.flat());
  const isConstant = (node: number): boolean => (node < count && frozen(node)) || inLoops.has(node);
  const needed = graph.reach(
    formulas.flatMap((_, formula) => (patched[formula] === 1 ? [formula] : [])),
    isConstant,
  );
  // Cells that only evaluation can tell may be any cells, so then every formula is brought up to date.
  const wanders = seeds.length > own.length;
  const chosen = [...order].filter((node) => node < count && (wanders || needed[node] === 1));
  return {
    loops: [],
    order: chosen.filter((node) => !isConstant(node)),
    patched,
    needed,
    kept: chosen.filter((node) => isConstant(node) && needed[node] === 1),
    wanders,
    outputs,
  };
}

/** It means the same cells wherever the formula stands. */
function isFixed(reference: WrittenReference): boolean {
  return reference.topFixed && reference.leftFixed && reference.bottomFixed && reference.rightFixed;
}
