/** Why a set of instruments was refused. */
export type RefusedBecause =
  /** Written by a later version: kept as it is, to be opened there. */
  | "newer"
  /** Not in our format, or damaged: kept, reported, never overwritten without asking. */
  | "unreadable"
  /** Some profile is inconsistent. */
  | "invalid";

/** A set of instruments that cannot be used, with one sentence per problem. */
export class InstrumentsRefused extends Error {
  override readonly name = "InstrumentsRefused";

  constructor(
    readonly because: RefusedBecause,
    readonly problems: readonly string[],
  ) {
    super(problems.join(" "));
  }
}
