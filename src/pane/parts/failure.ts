/** Sentence for an error. Hosts describe theirs in sentences; anything else is a bug. */
export function sentenceOf(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
