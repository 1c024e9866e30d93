/** An edit that no longer fits what the workbook holds. Its message is a sentence for the user; nothing was changed. */
export class EditRefused extends Error {
  override readonly name = "EditRefused";
}
