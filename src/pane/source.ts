/** A typed event that can be listened to. */
export interface Source<T> {
  /**
   * Adds a listener after the existing ones.
   *
   * @returns a function that removes it
   */
  readonly on: (listener: (event: T) => void) => () => void;
}

/**
 * A typed event that can be fired repeatedly.
 *
 * - Listeners are called in the order in which they were added, before `emit` returns.
 * - A listener removed during a call is not called any more; one added is called from the next time on.
 * - An error thrown by a listener is reported as an uncaught error of the page. The others are still called, and
 *   `emit` returns.
 *
 * Browsers' EventTarget follows the same rules. Node's also calls listeners added during a call, so tests would see
 * something different from users.
 */
export class Emitter<T = void> implements Source<T> {
  readonly #listeners = new Set<{ readonly handle: (event: T) => void }>();

  readonly on: Source<T>["on"] = (handle) => {
    // A listener added twice is called twice and removed once for each.
    const listener = { handle };
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
    };
  };

  readonly emit = (event: T): void => {
    for (const listener of [...this.#listeners]) {
      if (!this.#listeners.has(listener)) continue;
      try {
        listener.handle(event);
      } catch (error) {
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  };
}
