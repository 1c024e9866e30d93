import { nameKey } from "../../instruments/name.js";

/** A pass over the cells. */
export interface Pass {
  /** Names of instruments. */
  readonly names: readonly string[];
  /** Marks these instruments as done. Those marked again since the pass began stay stale. */
  readonly done: () => void;
}

/**
 * Changed instruments whose cells have not been recalculated yet. Each mark is numbered, so a pass clears only the
 * marks that it started with.
 */
export class Stale {
  readonly #marks = new Map<string, { readonly name: string; readonly mark: number }>();
  #count = 0;

  get isEmpty(): boolean {
    return this.#marks.size === 0;
  }

  mark(names: readonly string[]): void {
    for (const name of names) this.#marks.set(nameKey(name), { name, mark: (this.#count += 1) });
  }

  begin(): Pass {
    const marks = [...this.#marks];
    return {
      names: marks.map(([, { name }]) => name),
      done: () => {
        for (const [key, { mark }] of marks) if (this.#marks.get(key)?.mark === mark) this.#marks.delete(key);
      },
    };
  }
}
