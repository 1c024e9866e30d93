// The rules of events: those of the DOM standard for EventTarget (dom.spec.whatwg.org, "inner invoke" in section 2.9), from memory.
import { describe, expect, test, vi } from "vitest";
import { Emitter } from "../../src/pane/source.js";

/** A source, and a list of who was told what. */
function listened() {
  const source = new Emitter<string>();
  const heard: string[] = [];
  const hear = (name: string) => (what: string) => heard.push(`${name} ${what}`);
  return { source, heard, hear };
}

/** What is reported as uncaught while something is done. */
async function uncaught(act: () => void): Promise<unknown[]> {
  const event = "uncaughtException";
  const before = process.listeners(event);
  const errors: unknown[] = [];
  process.removeAllListeners(event);
  process.on(event, (error) => errors.push(error));
  try {
    act();
    await new Promise((resolve) => setTimeout(resolve));
  } finally {
    process.removeAllListeners(event);
    for (const listener of before) process.on(event, listener);
  }
  return errors;
}

describe("who listens", () => {
  test("is told in the order of coming, before tell returns", () => {
    const { source, heard, hear } = listened();
    source.on(hear("first"));
    source.on(hear("second"));
    source.emit("one");
    expect(heard).toEqual(["first one", "second one"]);
    source.emit("two");
    expect(heard.slice(2)).toEqual(["first two", "second two"]);
  });

  test("gets just what is told, nothing too", () => {
    const source = new Emitter<unknown>();
    const listener = vi.fn();
    source.on(listener);
    const thing = {};
    for (const told of [thing, undefined, null, 0]) source.emit(told);
    expect(listener.mock.calls).toEqual([[thing], [undefined], [null], [0]]);
    expect(listener.mock.calls[0]?.[0]).toBe(thing);
  });

  test("is told as often as it listens, and leaves once for each", () => {
    const source = new Emitter();
    const listener = vi.fn<() => void>();
    const leave = source.on(listener);
    source.on(listener);
    source.emit();
    expect(listener).toHaveBeenCalledTimes(2);
    leave();
    leave();
    source.emit();
    expect(listener).toHaveBeenCalledTimes(3);
  });

  test("hears of nothing that another source tells", () => {
    const [one, other] = [listened(), listened()];
    one.source.on(one.hear("one"));
    other.source.on(other.hear("other"));
    one.source.emit("told");
    expect(other.heard).toEqual([]);
  });
});

describe("while others are being told", () => {
  test("one that leaves is not told any more, itself or by another", () => {
    const { source, heard, hear } = listened();
    const leaveFirst = source.on((what) => {
      hear("first")(what);
      leaveFirst();
      leaveThird();
    });
    source.on(hear("second"));
    const leaveThird = source.on(hear("third"));
    source.emit("one");
    source.emit("two");
    expect(heard).toEqual(["first one", "second one", "second two"]);
  });

  test("one that comes is told from the next time on", () => {
    const { source, heard, hear } = listened();
    const leave = source.on(() => {
      leave();
      source.on(hear("late"));
    });
    source.on(hear("second"));
    source.emit("one");
    expect(heard).toEqual(["second one"]);
    source.emit("two");
    expect(heard).toEqual(["second one", "second two", "late two"]);
  });

  test("what a listener tells in turn is told at once", () => {
    const { source, heard, hear } = listened();
    source.on((what) => {
      if (what === "one") source.emit("two");
    });
    source.on(hear("second"));
    source.emit("one");
    expect(heard).toEqual(["second two", "second one"]);
  });
});

describe("a listener that throws", () => {
  test("silences no other, nor whoever tells; its error is reported as uncaught", async () => {
    const { source, heard, hear } = listened();
    source.on(hear("first"));
    const error = new Error("The listener failed.");
    source.on(() => {
      throw error;
    });
    source.on(hear("third"));
    const errors = await uncaught(() => {
      source.emit("one");
      heard.push("told");
      source.emit("two");
    });
    expect(heard).toEqual(["first one", "third one", "told", "first two", "third two"]);
    expect(errors).toEqual([error, error]);
  });
});
