import type { AssociatedFunction } from "./custom-functions.js";
import type { DeclaredFunction, FunctionMetadata } from "./function-metadata.js";

/** One of our functions, declared and defined. */
export interface CellFunction {
  /** As a user types it, in capitals: "GYLE.ABV". */
  readonly name: string;
  /** As a file stores it: "_xldudf_GYLE_ABV". */
  readonly stored: string;
  readonly declared: DeclaredFunction;
  /** Missing when the bundle does not define what the metadata declares. */
  readonly implementation: AssociatedFunction | undefined;
  readonly takesErrors: boolean;
}

/** How a file marks a function that came from an add-in. */
const filePrefix = "_xldudf_";

/** Our functions, found by any spelling a formula may use. */
export class CellFunctions {
  readonly all: readonly CellFunction[];
  readonly #byTyped = new Map<string, CellFunction>();
  readonly #byFile = new Map<string, CellFunction>();

  constructor(
    metadata: FunctionMetadata,
    associated: ReadonlyMap<string, AssociatedFunction>,
    readonly namespace: string,
  ) {
    this.all = metadata.functions.map((declared) => {
      const name = `${namespace}.${declared.name}`.toUpperCase();
      return {
        name,
        stored: filePrefix + name.replaceAll(".", "_"),
        declared,
        implementation: associated.get(declared.id.toUpperCase()),
        takesErrors: metadata.allowErrorForDataTypeAny ?? false,
      };
    });
    for (const fn of this.all) {
      this.#byTyped.set(fn.name, fn);
      this.#byFile.set(fn.stored.toUpperCase(), fn);
    }
  }

  /** @param spelling "GYLE.ABV" or "_xldudf_GYLE_ABV", in any letter case */
  find(spelling: string): CellFunction | undefined {
    const upper = spelling.toUpperCase();
    return this.#byTyped.get(upper) ?? this.#byFile.get(upper);
  }

  /** True for a spelling that is meant to be ours, though there may be no such function. */
  claims(spelling: string): boolean {
    const upper = spelling.toUpperCase();
    const namespace = this.namespace.toUpperCase();
    return upper.startsWith(`${namespace}.`) || upper.startsWith(`${filePrefix}${namespace}_`.toUpperCase());
  }
}
