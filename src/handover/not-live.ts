/** Why a call has no live formula: the end of a sentence. */
export class NotLive extends Error {
  override readonly name = "NotLive";
}
