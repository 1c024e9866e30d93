import { randomFrom } from "../support/synthetic-log.js";

/** What is thrown for one case; the same for the same seed. */
export interface Dice {
  readonly below: (count: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(items: readonly T[]) => T;
}

export function diceFrom(seed: number): Dice {
  const random = randomFrom(seed * 2654435761);
  const below = (count: number): number => Math.floor(random() * count);
  return {
    below,
    chance: (probability) => random() < probability,
    pick: <T>(items: readonly T[]) => items[below(items.length)] as T,
  };
}
