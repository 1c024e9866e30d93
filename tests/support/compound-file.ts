/** A compound file with one directory entry, at the first place where one can be. */
export function compoundFile(stream: string): Uint8Array {
  const bytes = new Uint8Array(2048);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  const entry = 1024 + 128;
  Array.from(stream).forEach((char, i) => (bytes[entry + 2 * i] = char.charCodeAt(0)));
  bytes[entry + 64] = (stream.length + 1) * 2;
  return bytes;
}
