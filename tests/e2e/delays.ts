/** What a host can be slow at. */
export type Operation =
  | "read"
  | "write"
  | "find"
  | "calls"
  | "recalculate"
  | "rename"
  | "repair"
  | "show"
  | "select"
  | "insert"
  | "check";

/** How slow a host is: each of its operations takes a random time, the same for the same seed. */
export interface Delays {
  readonly seed: number;
  /** The longest that a step of an operation takes, in milliseconds. */
  readonly most: number;
  /** Of some operations, how long each step takes instead: always so long. */
  readonly of?: Partial<Readonly<Record<Operation, number>>>;
}

/** Evenly spread numbers from 0 to 1, without 1 (mulberry32, in the public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Waits as long as a step of an operation takes. Without delays everything is done as soon as it is asked for. */
export function pauses(delays: Delays | undefined): (operation: Operation) => Promise<void> {
  const random = seeded(delays?.seed ?? 0);
  return (operation) => {
    const takes = delays ? (delays.of?.[operation] ?? Math.round(random() * delays.most)) : 0;
    return takes > 0 ? new Promise((resolve) => setTimeout(resolve, takes)) : Promise.resolve();
  };
}
