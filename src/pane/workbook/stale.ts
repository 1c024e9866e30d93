import { nameKey } from "../../instruments/name.js";

/** What a pass over the cells takes on. */
export interface Pass {
  /** Of instruments. */
  readonly names: readonly string[];
  /** The cells have followed. What was marked again since the pass began stays stale. */
  readonly done: () => void;
}

/**
 * Instruments that cells have not followed yet. Each mark has a number of its own, so that a pass can only take away the
 * marks that it began with.
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
