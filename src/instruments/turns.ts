/** Work that must not cross: each piece begins when the one before it is over, however that ended. */
export class Turns {
  #last: Promise<unknown> = Promise.resolve();

  /** Does the work when its turn comes. Never to be waited for from within a turn. */
  take<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#last.then(work);
    this.#last = mine.catch(() => undefined);
    return mine;
  }
}
