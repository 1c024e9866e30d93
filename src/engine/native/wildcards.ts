/** "*" stands for any text, "?" for one letter, "~" before one of them for itself. */
export function hasWildcard(pattern: string): boolean {
  return /[*?~]/.test(pattern);
}

/** A regular expression's source for a pattern. */
function sourceOf(pattern: string): string {
  return pattern.replace(/~([*?~])|([*?])|[\\^$.|+()[\]{}~/]/g, (all, escaped?: string, wild?: string) => {
    if (escaped !== undefined) return `\\${escaped}`.replace("\\~", "~");
    if (wild !== undefined) return wild === "*" ? "[^]*" : "[^]";
    return `\\${all}`.replace("\\~", "~");
  });
}

/** Whether a whole text fits, in letters of either case. */
export function wildcardTest(pattern: string): (text: string) => boolean {
  const expression = new RegExp(`^${sourceOf(pattern)}$`, "iu");
  return (text) => expression.test(text);
}

/** Where in a text a pattern first fits, from a place on; -1 if nowhere. */
export function findPattern(pattern: string, text: string, from: number): number {
  const place = text.slice(from).search(new RegExp(sourceOf(pattern), "iu"));
  return place < 0 ? -1 : from + place;
}
