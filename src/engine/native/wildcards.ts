/** "*" matches any text, "?" one character; "~" before one of them makes it literal. */
export function hasWildcard(pattern: string): boolean {
  return /[*?~]/.test(pattern);
}

/** Source of a regular expression for a pattern. */
function sourceOf(pattern: string): string {
  return pattern.replace(/~([*?~])|([*?])|[\\^$.|+()[\]{}~/]/g, (all, escaped?: string, wild?: string) => {
    if (escaped !== undefined) return `\\${escaped}`.replace("\\~", "~");
    if (wild !== undefined) return wild === "*" ? "[^]*" : "[^]";
    return `\\${all}`.replace("\\~", "~");
  });
}

/** Whether a whole text matches, ignoring case. */
export function wildcardTest(pattern: string): (text: string) => boolean {
  const expression = new RegExp(`^${sourceOf(pattern)}$`, "iu");
  return (text) => expression.test(text);
}

/** First match of a pattern in a text, from a place on; -1 if there is none. */
export function findPattern(pattern: string, text: string, from: number): number {
  const place = text.slice(from).search(new RegExp(sourceOf(pattern), "iu"));
  return place < 0 ? -1 : from + place;
}
