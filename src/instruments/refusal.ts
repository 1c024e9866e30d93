/** Why a set of instruments was not taken. */
export type RefusedBecause =
  /** Written by a later version: kept as it is, to be opened there. */
  | "newer"
  /** Not what we write, or damaged: kept, reported, never overwritten without asking. */
  | "unreadable"
  /** Some profile does not hold together. */
  | "invalid";

/** A set of instruments that cannot be used, with one sentence for each thing that is wrong. */
export class InstrumentsRefused extends Error {
  override readonly name = "InstrumentsRefused";

  constructor(
    readonly because: RefusedBecause,
    readonly problems: readonly string[],
  ) {
    super(problems.join(" "));
  }
}
