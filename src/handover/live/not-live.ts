/** Why a call has no live formula: the end of a sentence. */
export class NotLive extends Error {
  override readonly name = "NotLive";
}

/** For a function that refuses whatever the cells hold, so that nothing can be fitted or compared. */
export const givesNoNumber = (): NotLive =>
  new NotLive("the function gives no number with the arguments that stand in it");
