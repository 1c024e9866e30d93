/** Serialises work: each piece begins when the one before it has ended, however it ended. */
export class Turns {
  #last: Promise<unknown> = Promise.resolve();

  /** Does the work when its turn comes. Never await this from within a turn. */
  take<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#last.then(work);
    this.#last = mine.catch(() => undefined);
    return mine;
  }
}
