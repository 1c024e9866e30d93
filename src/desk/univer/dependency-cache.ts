import type { IUnitRange } from "@univerjs/core";
import {
  type BaseAstNode,
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
} from "@univerjs/engine-formula";
import type { UniverSheet } from "./univer.js";

/** Univer's record of a formula, recreated for each calculation; its id stays with the cell. */
interface Tree {
  readonly treeId: number;
  readonly unitId: string;
  readonly formula: string;
  readonly isVirtual: boolean;
  readonly addressFunctionNodes: readonly unknown[];
}

/** Methods that find the dependencies of each formula. Univer calls them for all formulas before each calculation. */
interface Generator {
  generate: (isModel?: boolean) => Promise<unknown>;
  _getTreeNode: (tree: Tree) => BaseAstNode;
  _getRangeListByNode: (of: { readonly node: BaseAstNode }) => Promise<readonly IUnitRange[]>;
  _calculateListByFunctionRefNode: (trees: readonly Tree[]) => Promise<void>;
  readonly _nodeTraversalRef: (node: BaseAstNode, found: BaseAstNode[]) => void;
}

/** Methods that store the dependencies. */
interface Manager {
  addDependencyRTreeCache: (tree: Tree) => void;
  reset: () => void;
  removeFormulaDependencyByDefinedName: (unit: string, name: string) => void;
  _removeDependencyRTreeCacheById: (unit: string, sheet: string) => void;
  _removeAllTreeMap: (treeId: number | null | undefined) => void;
}

interface Known {
  readonly formula: string;
  /** The ranges that it reads. */
  readonly ranges: readonly IUnitRange[];
  /** Whether the manager has stored them. */
  isKept: boolean;
}

/** Replaces a formula whose dependencies are known. */
const CONSTANT = "=0";

interface Size {
  readonly rowCount: number;
  readonly columnCount: number;
}

/** Univer's kind of a node that is a cell, or a range of cells. */
const REFERENCE = 1;

/**
 * Makes Univer find the dependencies of a formula once instead of for all formulas before each calculation: in a sheet
 * of ten thousand formulas an edit spent most of its time on that, and each left ranges behind that made the next one
 * slower.
 */
export function cacheDependencies({ univer }: UniverSheet): void {
  const injector = univer.__getInjector();
  const config = injector.get<IFormulaCurrentConfigService>(IFormulaCurrentConfigService);
  const generator = injector.get(IFormulaDependencyGenerator) as unknown as Generator;
  const manager = injector.get(IDependencyManagerService) as unknown as Manager;
  const known = new Map<number, Known>();

  // What the ranges of a formula depend on besides its text: names, sheets and their sizes.
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
  /** Formulas reached through reference functions are calculated there as well, and that needs the formula itself. */
  let isFollowing = false;
  generator._getTreeNode = (tree) => {
    if (isFollowing) return nodeOf(tree);
    // A known formula needs no search; a constant replaces it.
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

/** Whether a formula always reads the same cells, is calculated only when they change, and uses no defined names. */
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

/** Calls a function before a method of an object. */
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
