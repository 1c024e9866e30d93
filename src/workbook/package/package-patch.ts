import type { Package, PartSource } from "./package.js";
import { encodeXml, encodingOf, type Encoding } from "./text-encoding.js";
import { zip, type ZipPart } from "./unzip.js";

interface Written {
  readonly text: string;
  readonly encoding: Encoding;
}

const bytesOf = ({ text, encoding }: Written): Uint8Array => encodeXml(text, encoding);

/** An opened file with parts rewritten, added and removed; the file itself is not modified. */
export class PackagePatch implements PartSource {
  private readonly written = new Map<string, Written>();
  private readonly removed = new Set<string>();

  constructor(private readonly source: Package) {}

  names(): readonly string[] {
    const added = [...this.written.keys()].filter((name) => this.source.find(name) === undefined);
    return [...this.source.names().filter((name) => !this.removed.has(name)), ...added];
  }

  find(name: string): string | undefined {
    const stored = this.source.find(name);
    if (stored !== undefined) return this.removed.has(stored) ? undefined : stored;
    return this.written.has(name) ? name : undefined;
  }

  text(name: string): string {
    return this.written.get(this.source.find(name) ?? name)?.text ?? this.source.text(name);
  }

  bytes(name: string): Uint8Array {
    const written = this.written.get(this.source.find(name) ?? name);
    return written === undefined ? this.source.bytes(name) : bytesOf(written);
  }

  /**
   * Rewrites a part in its place, or adds one at the end.
   *
   * @param encoding of the text; by default a part keeps its own, and a new one is UTF-8
   */
  write(name: string, text: string, encoding?: Encoding): void {
    const stored = this.source.find(name);
    const found = stored === undefined ? "utf-8" : encodingOf(this.source.bytes(stored));
    this.written.set(stored ?? name, { text, encoding: encoding ?? found });
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

  /** The patched file. Parts keep their order; new ones follow and get the time of the first part. */
  zip(): Promise<Uint8Array> {
    const kept = this.source.parts.filter((part) => !this.removed.has(part.name));
    const parts: ZipPart[] = kept.map((part) => {
      const written = this.written.get(part.name);
      return written === undefined ? part : { ...part, bytes: bytesOf(written) };
    });
    const modified = this.source.parts[0]?.modified ?? new Date(1980, 0, 1);
    for (const [name, written] of this.written) {
      if (this.source.find(name) === undefined)
        parts.push({ name, bytes: bytesOf(written), stored: false, modified });
    }
    return zip(parts);
  }
}
