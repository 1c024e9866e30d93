import type { Package, PartSource } from "./package.js";
import { zip, type Part } from "./unzip.js";
import { encodeUtf8 } from "./xml-text.js";

/** An opened file with parts rewritten, added and removed; the file itself is left as it was. */
export class PackagePatch implements PartSource {
  private readonly written = new Map<string, string>();
  private readonly removed = new Set<string>();

  constructor(private readonly source: Package) {}

  find(name: string): string | undefined {
    const stored = this.source.find(name);
    if (stored !== undefined) return this.removed.has(stored) ? undefined : stored;
    return this.written.has(name) ? name : undefined;
  }

  text(name: string): string {
    return this.written.get(this.source.find(name) ?? name) ?? this.source.text(name);
  }

  bytes(name: string): Uint8Array {
    const written = this.written.get(this.source.find(name) ?? name);
    return written === undefined ? this.source.bytes(name) : encodeUtf8(written);
  }

  /** Rewrites a part in its place, or adds one at the end. */
  write(name: string, text: string): void {
    this.written.set(this.source.find(name) ?? name, text);
  }

  remove(name: string): void {
    this.removed.add(this.source.find(name) ?? name);
  }

  /** A name that no part has yet, with the first free number: "xl/comments#.xml" gives "xl/comments3.xml". */
  freeName(pattern: string): string {
    for (let n = 1; ; n++) {
      const name = pattern.replace("#", String(n));
      if (this.source.find(name) === undefined && !this.written.has(name)) return name;
    }
  }

  /** The patched file. Parts keep their order; new ones follow and carry the time of the first part. */
  zip(): Promise<Uint8Array> {
    const kept = this.source.parts.filter((part) => !this.removed.has(part.name));
    const parts: Part[] = kept.map((part) => {
      const text = this.written.get(part.name);
      return text === undefined ? part : { ...part, bytes: encodeUtf8(text) };
    });
    const modified = this.source.parts[0]?.modified ?? new Date(1980, 0, 1);
    for (const [name, text] of this.written) {
      if (this.source.find(name) === undefined)
        parts.push({ name, bytes: encodeUtf8(text), stored: false, modified });
    }
    return zip(parts);
  }
}
