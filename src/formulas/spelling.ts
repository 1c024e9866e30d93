/** How formulas write a function of ours. */
export interface Spellings {
  /** As a user types it, in capitals: "GYLE.ABV". */
  readonly name: string;
  /** As a file stores it: "_xldudf_GYLE_ABV". */
  readonly stored: string;
}

/** How a file marks a function that came from an add-in. */
const filePrefix = "_xldudf_";

/** @param name of the function, without its namespace */
export function spellings(namespace: string, name: string): Spellings {
  const typed = `${namespace}.${name}`.toUpperCase();
  return { name: typed, stored: filePrefix + typed.replaceAll(".", "_") };
}

/** What programs put before a function that they did not know when they saved the file. */
const unknownThere = /^(?:_xlfn\.|_xludf\.|_xlws\.)+/i;

const bare = (spelling: string): string => spelling.replace(unknownThere, "").toUpperCase();

/** Our functions, found by any spelling a formula may use. */
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

  /** True for a spelling that is meant to be ours, though there may be no such function. */
  claims(spelling: string): boolean {
    const upper = bare(spelling);
    const namespace = this.namespace.toUpperCase();
    return upper.startsWith(`${namespace}.`) || upper.startsWith(`${filePrefix}${namespace}_`.toUpperCase());
  }
}
