/** What decides whether two instrument names are the same: neither case nor outer blanks. */
export function nameKey(name: string): string {
  return name.trim().normalize("NFC").toLowerCase();
}
