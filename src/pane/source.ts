/** A typed event that can be listened to. */
export interface Source<T> {
  /**
   * Adds a listener after the existing ones.
   *
   * @returns a function that removes it
   */
  readonly on: (listener: (told: T) => void) => () => void;
}

/**
 * A typed event that can be fired repeatedly.
 *
 * - Listeners are called in the order in which they were added, before `tell` returns.
 * - A listener removed during a call is not called any more; one added is called from the next time on.
 * - An error thrown by a listener is reported as an uncaught error of the page. The others are still called, and
 *   `tell` returns.
 *
 * Browsers' EventTarget follows the same rules. Node's also calls listeners added during a call, so tests would see
 * something different from users.
 */
export class Emitter<T = void> implements Source<T> {
  readonly #listeners = new Set<{ readonly hear: (told: T) => void }>();

  readonly on: Source<T>["on"] = (hear) => {
    // A listener added twice is called twice and removed once for each.
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
