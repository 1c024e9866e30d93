import type { IUnitRange } from "@univerjs/core";
import {
  type BaseAstNode,
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
} from "@univerjs/engine-formula";
import type { UniverSheet } from "./univer.js";

/** One of Univer's notes of a formula, made anew for each calculation; its number stays with the cell. */
interface Tree {
  readonly treeId: number;
  readonly unitId: string;
  readonly formula: string;
  readonly isVirtual: boolean;
  readonly addressFunctionNodes: readonly unknown[];
}

/** Methods that find out which cells each formula reads. Univer calls them for all formulas before each calculation. */
interface Generator {
  generate: (isModel?: boolean) => Promise<unknown>;
  _getTreeNode: (tree: Tree) => BaseAstNode;
  _getRangeListByNode: (of: { readonly node: BaseAstNode }) => Promise<readonly IUnitRange[]>;
  _calculateListByFunctionRefNode: (trees: readonly Tree[]) => Promise<void>;
  readonly _nodeTraversalRef: (node: BaseAstNode, found: BaseAstNode[]) => void;
}

/** Methods that keep which cells are read by whom. */
interface Manager {
  addDependencyRTreeCache: (tree: Tree) => void;
  reset: () => void;
  removeFormulaDependencyByDefinedName: (unit: string, name: string) => void;
  _removeDependencyRTreeCacheById: (unit: string, sheet: string) => void;
  _removeAllTreeMap: (treeId: number | null | undefined) => void;
}

interface Known {
  readonly formula: string;
  /** The cells that it reads. */
  readonly ranges: readonly IUnitRange[];
  /** Whether the manager has them. */
  isKept: boolean;
}

/** Stands in for a formula of which everything is known. */
const CONSTANT = "=0";

interface Size {
  readonly rowCount: number;
  readonly columnCount: number;
}

/** Univer's kind of a node that is a cell, or a range of cells. */
const REFERENCE = 1;

/**
 * Has Univer find out once which cells a formula reads, and not before each calculation for all formulas: an edit in a sheet of ten
 * thousand formulas took most of its time for that, and each left ranges behind that made the next one slower.
 */
export function rememberFormulas({ univer }: UniverSheet): void {
  const injector = univer.__getInjector();
  const config = injector.get<IFormulaCurrentConfigService>(IFormulaCurrentConfigService);
  const generator = injector.get(IFormulaDependencyGenerator) as unknown as Generator;
  const manager = injector.get(IDependencyManagerService) as unknown as Manager;
  const known = new Map<number, Known>();

  // What the ranges of a formula depend on besides its text: names, sheets and how large these are.
  let sizes = "";
  before(generator, "generate", () => {
    const now = Object.entries(config.getUnitData())
      .flatMap(([unit, sheets]) => Object.entries(sheets).map((sheet) => `${unit} ${sizeOf(sheet)}`))
      .join();
    const isRenamed = Object.keys(config.getDirtyNameMap()).length > 0;
    if (isRenamed || now !== sizes || config.isForceCalculate()) known.clear();
    sizes = now;
  });
  for (const method of [
    "reset",
    "removeFormulaDependencyByDefinedName",
    "_removeDependencyRTreeCacheById",
  ] as const)
    before(manager, method, () => {
      known.clear();
    });
  before(manager, "_removeAllTreeMap", (treeId) => {
    if (typeof treeId === "number") known.delete(treeId);
  });

  const same = ({ treeId, formula }: Tree): Known | undefined => {
    const found = known.get(treeId);
    return found?.formula === formula ? found : undefined;
  };

  const nodeOf = generator._getTreeNode.bind(generator);
  const rangesOf = generator._getRangeListByNode.bind(generator);
  let asked: { readonly tree: Tree; readonly node: BaseAstNode } | undefined;
  /** Formulas that functions lead to are also calculated there, and there only the formula itself will do. */
  let isFollowing = false;
  generator._getTreeNode = (tree) => {
    if (isFollowing) return nodeOf(tree);
    // There is nothing to look for in a formula that is known; a constant stands in for it.
    const node = nodeOf(same(tree) ? { ...tree, formula: CONSTANT } : tree);
    asked = { tree, node };
    return node;
  };
  generator._getRangeListByNode = async (given) => {
    const tree = asked?.node === given.node ? asked.tree : undefined;
    asked = undefined;
    if (!tree) return rangesOf(given);
    const before = same(tree);
    if (before) return before.ranges;
    const ranges = await rangesOf(given);
    if (isPlain(given.node, generator))
      known.set(tree.treeId, { formula: tree.formula, ranges, isKept: false });
    else known.delete(tree.treeId);
    return ranges;
  };

  const keep = manager.addDependencyRTreeCache.bind(manager);
  manager.addDependencyRTreeCache = (tree) => {
    const found = tree.isVirtual ? undefined : same(tree);
    if (found?.isKept) return;
    keep(tree);
    if (found) found.isKept = true;
  };

  const followFunctions = generator._calculateListByFunctionRefNode.bind(generator);
  generator._calculateListByFunctionRefNode = async (trees) => {
    if (!trees.some(({ addressFunctionNodes }) => addressFunctionNodes.length > 0)) return;
    isFollowing = true;
    try {
      await followFunctions(trees);
    } finally {
      isFollowing = false;
    }
  };
}

const sizeOf = ([id, { rowCount, columnCount }]: readonly [string, Size]): string =>
  `${id} ${rowCount} ${columnCount}`;

/** Whether a formula reads always the same cells, is calculated only when they change, and names nothing. */
function isPlain(root: BaseAstNode, generator: Generator): boolean {
  const references: BaseAstNode[] = [];
  generator._nodeTraversalRef(root, references);
  return references.every(({ nodeType }) => (nodeType as number) === REFERENCE) && everyNode(root);
}

const everyNode = (node: BaseAstNode): boolean =>
  (node.getDefinedNames() ?? []).length === 0 &&
  !node.isAddress() &&
  !node.isForcedCalculateFunction() &&
  node.getChildren().every(everyNode);

type Method = (...given: never[]) => unknown;

/** Does something before a method of an object is called. */
function before<K extends string, T extends Record<K, Method>>(
  of: T,
  name: K,
  act: (...given: Parameters<T[K]>) => void,
): void {
  const method = of[name].bind(of) as T[K];
  of[name] = ((...given: Parameters<T[K]>) => {
    act(...given);
    return method(...given);
  }) as unknown as T[K];
}
