import { WorkbookError } from "../error.js";
import { textLimit } from "../limits.js";
import type { ZipPart } from "./unzip.js";
import { decodeXml } from "./text-encoding.js";

/** Parts by name. Names ignore case, as the packaging rules require. */
export interface PartSource {
  /** Names of all parts, as spelled in the file. */
  names(): readonly string[];
  /** The part's name as spelled in the file. */
  find(name: string): string | undefined;
  /** @throws WorkbookError if the part is missing, too large, or neither UTF-8 nor UTF-16 */
  text(name: string): string;
  bytes(name: string): Uint8Array;
}

/** The parts of an opened file. */
export class Package implements PartSource {
  private readonly byName = new Map<string, ZipPart>();

  constructor(readonly parts: readonly ZipPart[]) {
    for (const part of parts) this.byName.set(part.name.toLowerCase(), part);
  }

  names(): readonly string[] {
    return this.parts.map(({ name }) => name);
  }

  find(name: string): string | undefined {
    return this.byName.get(name.toLowerCase())?.name;
  }

  bytes(name: string): Uint8Array {
    const part = this.byName.get(name.toLowerCase());
    if (!part) throw new WorkbookError(`is damaged: ${name} is missing`);
    return part.bytes;
  }

  text(name: string): string {
    const bytes = this.bytes(name);
    if (bytes.length > textLimit) {
      throw new WorkbookError(`holds ${name} of more than ${textLimit / 1024 / 1024} MB; refused`);
    }
    return decodeXml(name, bytes);
  }
}
