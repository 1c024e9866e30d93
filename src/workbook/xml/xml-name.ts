/** Whether this can name an element or attribute. Of characters beyond ASCII every one passes. */
export function isXmlName(name: string): boolean {
  for (let i = 0; i < name.length; i++) {
    const code = name.charCodeAt(i);
    const letter = (code | 32) >= 97 && (code | 32) <= 122;
    const starts = letter || code === 95 || code === 58 || code > 127;
    const continues = (code >= 48 && code <= 57) || code === 45 || code === 46;
    if (!starts && !(i > 0 && continues)) return false;
  }
  return name.length > 0;
}
