/** What an instrument showed, and what was true. */
export interface CheckPoint {
  readonly reading: number;
  readonly true: number;
}
