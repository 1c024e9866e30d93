// The way Excel's objects behave, without Excel: nothing happens before sync, and nothing can be read that was not loaded.
// office-addin-mock has no collections, no ranges by place, no null objects and no failing sync, so whatever works on
// more than one given object is tested with this instead.

/** What Excel reports. */
export class ExcelError extends Error {
  override readonly name = "RichApi.Error";

  constructor(readonly code: string) {
    super(code);
  }
}

export class Queue {
  #waiting: (() => void)[] = [];
  syncs = 0;
  /** Called before each sync; may throw what Excel reports. */
  before: (sync: number) => void = () => undefined;

  add(work: () => void): void {
    this.#waiting.push(work);
  }

  sync = async (): Promise<void> => {
    const work = this.#waiting;
    this.#waiting = [];
    await Promise.resolve();
    this.syncs += 1;
    this.before(this.syncs);
    for (const step of work) step();
  };
}

export type Fields = Readonly<Record<string, unknown>>;

/**
 * An object of Excel's.
 *
 * @param target what it stands for, once it is asked for; undefined makes it a null object
 * @param fields what can be loaded of it
 * @param members what is there without loading
 * @param write takes a value for a field
 */
export function remote<T>(
  queue: Queue,
  target: () => T | undefined,
  fields: (target: T) => Fields,
  members: (target: () => T) => Fields = () => ({}),
  write: (target: T, field: string, value: unknown) => void = () => undefined,
): object {
  const loaded = new Map<string, unknown>();
  const sure = (): T => {
    const found = target();
    if (found === undefined) throw new ExcelError("ItemNotFound");
    return found;
  };
  const own: Record<string, unknown> = {
    ...members(sure),
    load: (names: string) => {
      queue.add(() => {
        const found = target();
        loaded.set("isNullObject", found === undefined);
        if (found === undefined) return;
        const all = fields(found);
        for (const path of names.split(",")) loadPath(all, loaded, path.split("/"));
      });
    },
  };
  return new Proxy(own, {
    get: (_, field) => {
      if (typeof field === "symbol" || field === "then") return undefined;
      if (loaded.has(field)) return loaded.get(field);
      if (field in own) return own[field];
      throw new Error(`PropertyNotLoaded: ${field}`);
    },
    set: (_, field, value) => {
      queue.add(() => {
        write(sure(), String(field), value);
      });
      return true;
    },
  });
}

function loadPath(all: Fields, loaded: Map<string, unknown>, [name = "", ...rest]: readonly string[]): void {
  if (!(name in all)) throw new ExcelError("InvalidArgument");
  const value = all[name];
  loaded.set(name, value);
  if (rest.length === 0) return;
  for (const item of Array.isArray(value) ? (value as Loadable[]) : [value as Loadable])
    item.loadNow(rest.join("/"));
}

interface Loadable {
  readonly loadNow: (path: string) => void;
}

/** An item of a collection: loaded by path together with it. */
export function item(fields: () => Fields, members: Fields = {}): object {
  const loaded = new Map<string, unknown>();
  const own: Record<string, unknown> = {
    ...members,
    loadNow: (path: string) => {
      loadPath(fields(), loaded, path.split("/"));
    },
  };
  return new Proxy(own, {
    get: (_, field) => {
      if (typeof field === "symbol" || field === "then") return undefined;
      if (loaded.has(field)) return loaded.get(field);
      if (field in own) return own[field];
      throw new Error(`PropertyNotLoaded: ${field}`);
    },
  });
}
