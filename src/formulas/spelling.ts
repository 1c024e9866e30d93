/** Spellings of one of our functions in formulas. */
export interface Spellings {
  /** As a user types it, in capitals: "GYLE.ABV". */
  readonly name: string;
  /** As a file stores it: "_xldudf_GYLE_ABV". */
  readonly stored: string;
}

/** Prefix in files for functions that came from an add-in. */
const filePrefix = "_xldudf_";

/** @param name of the function, without its namespace */
export function spellings(namespace: string, name: string): Spellings {
  const typed = `${namespace}.${name}`.toUpperCase();
  return { name: typed, stored: filePrefix + typed.replaceAll(".", "_") };
}

/** Prefixes that programs write before functions unknown to them when they save a file. */
const unknownThere = /^(?:_xlfn\.|_xludf\.|_xlws\.)+/i;

const bare = (spelling: string): string => spelling.replace(unknownThere, "").toUpperCase();

/** Our functions, found by any of their spellings. */
export class SpelledFunctions<F extends Spellings> {
  readonly #byTyped = new Map<string, F>();
  readonly #byFile = new Map<string, F>();

  constructor(
    readonly all: readonly F[],
    readonly namespace: string,
  ) {
    for (const fn of all) {
      this.#byTyped.set(fn.name, fn);
      this.#byFile.set(fn.stored.toUpperCase(), fn);
    }
  }

  /** @param spelling "GYLE.ABV" or "_xldudf_GYLE_ABV", in any letter case, also behind "_xlfn." */
  find(spelling: string): F | undefined {
    const upper = bare(spelling);
    return this.#byTyped.get(upper) ?? this.#byFile.get(upper);
  }

  /** Whether a spelling belongs to our namespace, even if there is no such function. */
  claims(spelling: string): boolean {
    const upper = bare(spelling);
    const namespace = this.namespace.toUpperCase();
    return upper.startsWith(`${namespace}.`) || upper.startsWith(`${filePrefix}${namespace}_`.toUpperCase());
  }
}
