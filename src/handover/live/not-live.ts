/** Why a call has no live formula: the end of a sentence. */
export class NotLive extends Error {
  override readonly name = "NotLive";
}

/** Where the function refuses whatever stands in the cells, so that nothing can be fitted or compared. */
export const givesNoNumber = (): NotLive =>
  new NotLive("the function gives no number with the arguments that stand in it");
