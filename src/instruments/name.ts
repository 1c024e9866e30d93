/** Key for comparing instrument names, which ignores case and surrounding blanks. */
export function nameKey(name: string): string {
  return name.trim().normalize("NFC").toLowerCase();
}
