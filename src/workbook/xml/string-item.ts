import { unescapeString } from "./escaped-string.js";
import type { OpenTag } from "./xml-events.js";
import { localName } from "./xml-tree.js";

interface Run {
  text: string;
  readonly preserved: boolean;
}

/**
 * Collects the text of an <si> or <is> element: one text or several formatted runs, without phonetic guides (<rPh>).
 */
export class StringItem {
  private runs: Run[] = [];
  private inText = false;
  private phoneticDepth = 0;

  /** Takes an opening tag inside the element. */
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

  /** The text so far. Empties the collector. */
  take(): string {
    const first = this.runs[0];
    const last = this.runs.at(-1);
    let text = this.runs.map((run) => run.text).join("");
    this.runs = [];
    if (first && last) text = trimmed(text, !first.preserved, !last.preserved);
    return unescapeString(text);
  }
}

/** Whether an element keeps leading and trailing white space (xml:space="preserve"). */
export function preservesSpace(tag: OpenTag): boolean {
  return tag.value("xml:space") === "preserve";
}

/**
 * Removes white space at the ends, as Excel does with a text that does not ask to keep it, even if it is written as
 * character references.
 */
export function trimmed(text: string, start = true, end = true): string {
  const left = start ? text.replace(/^[ \t\r\n]+/, "") : text;
  return end ? left.replace(/[ \t\r\n]+$/, "") : left;
}

/** Whether a text needs xml:space="preserve". */
export function hasOuterSpace(text: string): boolean {
  return trimmed(text) !== text;
}
