/** An edit that does not fit what the workbook holds by now. Its message is a sentence for the user; nothing was changed. */
export class EditRefused extends Error {
  override readonly name = "EditRefused";
}
