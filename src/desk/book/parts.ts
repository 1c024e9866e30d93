import type { PartStore } from "../../instruments/keeper.js";
import type { Emitter } from "../../pane/source.js";
import type { CustomXml, NewCustomXml } from "../../workbook/package/custom-xml.js";

/** The XML parts with the instruments of the open workbook, as they will be saved. */
export class Parts implements PartStore {
  #now: readonly NewCustomXml[];

  /**
   * @param stored as in the file
   * @param edited fires when they change
   */
  constructor(
    private readonly stored: readonly CustomXml[],
    private readonly edited: Emitter,
  ) {
    this.#now = stored;
  }

  readonly read = (): Promise<readonly string[]> => Promise.resolve(this.texts);

  readonly write = (xml: string, insteadOf: readonly string[]): Promise<void> => {
    const replaced = this.#now.filter((part) => insteadOf.includes(part.xml));
    const path = replaced.find((part) => part.path !== undefined)?.path;
    const added = path === undefined ? { xml } : { path, xml };
    this.#now = [...this.#now.filter((part) => !replaced.includes(part)), added];
    this.edited.emit();
    return Promise.resolve();
  };

  get texts(): readonly string[] {
    return this.#now.map(({ xml }) => xml);
  }

  /** The changes to write into the file. */
  get extras(): {
    readonly customXml: readonly NewCustomXml[];
    readonly droppedCustomXml: readonly string[];
  } {
    const before = new Map(this.stored.map(({ path, xml }) => [path, xml]));
    const kept = new Set(this.#now.map(({ path }) => path));
    return {
      customXml: this.#now.filter(({ path, xml }) => path === undefined || before.get(path) !== xml),
      droppedCustomXml: this.stored.flatMap(({ path }) => (kept.has(path) ? [] : [path])),
    };
  }
}
