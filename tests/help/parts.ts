// A help page as someone finds it who has nothing but its HTML.
import { DomUtils, parseDocument } from "htmlparser2";

type Parsed = ReturnType<typeof parseDocument>;
type Element = ReturnType<typeof DomUtils.getElementsByTagName>[number];

export const elements = (within: Parsed | Element, name: string): Element[] =>
  DomUtils.getElementsByTagName(name, within);

export const textOf = (element: Parsed | Element): string => DomUtils.textContent(element).trim();

export const parsed = (html: string): Parsed => parseDocument(html);

/** Sections by their headings. */
export function sections(html: string): ReadonlyMap<string, Element> {
  return new Map(
    elements(parsed(html), "section").map((section) => [
      textOf(elements(section, "h2")[0] ?? section),
      section,
    ]),
  );
}

/** Rows of a table as text, without its head. */
export const bodyRows = (table: Element): string[][] =>
  elements(table, "tr")
    .slice(1)
    .map((row) => row.children.map((cell) => textOf(cell as Element)));

/** The table that is called so, if the section has it. */
export const tableNamed = (section: Element, name: string): Element | undefined =>
  elements(section, "div").find(({ attribs }) => attribs["aria-label"] === name);

/** The formula that stands on a line of its own, without "=". */
export function formulaIn(section: Element): string {
  const line = elements(section, "p").find(({ attribs }) => attribs["class"] === "formula");
  return line ? textOf(line).replace(/^=/, "") : "";
}

const VOID = new Set(["meta", "link", "br", "wbr"]);

/** What is wrong with how a page is written: tags that do not pair, ids twice, headings that skip a level. */
export function htmlFaults(html: string): string[] {
  const faults: string[] = [];
  const open: string[] = [];
  for (const [, closing, name = ""] of html.matchAll(/<(\/?)([a-z][a-z0-9]*)(?:\s[^<>]*)?>/g)) {
    if (VOID.has(name)) continue;
    if (closing === "") open.push(name);
    else if (open.pop() !== name) faults.push(`</${name}> closes nothing`);
  }
  faults.push(...open.map((name) => `<${name}> is not closed`));
  const page = parsed(html);
  const all = DomUtils.findAll(() => true, page.children);
  const levels = all.flatMap(({ name }) => (/^h[1-6]$/.test(name) ? [Number(name.charAt(1))] : []));
  if (levels.filter((level) => level === 1).length !== 1) faults.push("there is not one h1");
  levels.forEach((level, i) => {
    if (level > (levels[i - 1] ?? 0) + 1) faults.push(`an h${level} stands too deep`);
  });
  const ids = all.flatMap(({ attribs }) => attribs["id"] ?? []);
  if (new Set(ids).size < ids.length) faults.push("an id is there twice");
  if (/<[^<>]*<|&(?!(?:#\d+|[a-z]+);)/.test(html.replace(/<!doctype html>/, "")))
    faults.push("a sign is not escaped");
  return faults;
}
