import { unescapeString } from "./escaped-string.js";
import type { OpenTag } from "./xml-events.js";
import { localName } from "./xml-tree.js";

interface Run {
  text: string;
  readonly preserved: boolean;
}

/**
 * Collects the text of an <si> or <is> element: one text or several formatted runs. Reading aids (<rPh>) are no part
 * of it.
 */
export class StringItem {
  private runs: Run[] = [];
  private inText = false;
  private phoneticDepth = 0;

  /** Takes what lies inside the element. */
  open(tag: OpenTag): void {
    const local = localName(tag.name);
    if (this.phoneticDepth > 0 || local === "rPh") this.phoneticDepth++;
    else if (local === "t") {
      this.inText = true;
      this.runs.push({ text: "", preserved: preservesSpace(tag) });
    }
  }

  text(data: string): void {
    const run = this.runs.at(-1);
    if (run && this.inText) run.text += data;
  }

  close(): void {
    if (this.phoneticDepth > 0) this.phoneticDepth--;
    else this.inText = false;
  }

  /** The text so far; the collector is empty again afterwards. */
  take(): string {
    const first = this.runs[0];
    const last = this.runs.at(-1);
    let text = this.runs.map((run) => run.text).join("");
    this.runs = [];
    if (first && last) text = trimmed(text, !first.preserved, !last.preserved);
    return unescapeString(text);
  }
}

/** Whether white space at the ends of an element's text counts. */
export function preservesSpace(tag: OpenTag): boolean {
  return tag.value("xml:space") === "preserve";
}

/** Excel drops white space at the ends of a text that does not ask to keep it, even when written as references. */
export function trimmed(text: string, start = true, end = true): string {
  const left = start ? text.replace(/^[ \t\r\n]+/, "") : text;
  return end ? left.replace(/[ \t\r\n]+$/, "") : left;
}

/** Whether a text must ask to keep its white space. */
export function hasOuterSpace(text: string): boolean {
  return trimmed(text) !== text;
}
