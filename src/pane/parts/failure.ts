/** What to tell the user of something that went wrong. Hosts put their trouble into sentences; anything else is a bug. */
export function sentenceOf(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
