/** What one may listen to. */
export interface Source<T> {
  /** Has a listener told from now on, after those who listen already. @returns ends that */
  readonly on: (listener: (told: T) => void) => () => void;
}

/**
 * Something that happens again and again, told to all who listen:
 *
 * - one after the other, in the order in which they came, and before `tell` returns.
 * - One that leaves while others are being told is not told any more; one that comes then is told from the next time on.
 * - What a listener throws is reported as an uncaught error of the page. The others are told all the same, and `tell` returns.
 *
 * Browsers' EventTarget keeps these rules too. Node's tells at once those who come in between, so that tests would see something
 * else than users.
 */
export class Emitter<T = void> implements Source<T> {
  readonly #listeners = new Set<{ readonly hear: (told: T) => void }>();

  readonly on: Source<T>["on"] = (hear) => {
    // A listener that comes twice is told twice, and leaves once for each.
    const listener = { hear };
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
    };
  };

  readonly tell = (what: T): void => {
    for (const listener of [...this.#listeners]) {
      if (!this.#listeners.has(listener)) continue;
      try {
        listener.hear(what);
      } catch (error) {
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  };
}
