// Shared by all help pages: their frame, and how text becomes HTML.
import { catalogue } from "../functions/catalogue.js";
import { helpFile } from "../functions/metadata.js";
import { kindOf, kinds } from "../instruments/describe.js";
import { readingPage } from "../instruments/reading-page.js";

export const escape = (text: string): string => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

/** Names of functions, longest first, so that a longer name is never matched by its beginning. */
const names = catalogue.map(({ name }) => name).sort((a, b) => b.length - a.length);
// Not in quotation marks, where it is a literal argument, nor where it means the spreadsheet's own function.
const MENTION = new RegExp(
  `(?<![\\w.]|&#34;|spreadsheet's )(?:GYLE\\.)?(${names.map((name) => name.replaceAll(".", "\\.")).join("|")})(?![\\w(]|\\.[A-Z]|&#34;)`,
  "g",
);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const link = (file: string, html: string): string => `<a href="${file}">${html}</a>`;

/** A formula or a name, which may break after commas, parentheses and underscores. */
export const code = (text: string): string =>
  `<code>${escape(text).replace(/([,(_])(?=.)/g, "$1<wbr>")}</code>`;

/** Prose, with functions linked to their pages. @param but the page's own function */
export function prose(text: string, but?: string): string {
  return escape(text.trim()).replace(MENTION, (mention, name: string) =>
    name === but ? mention : link(helpFile(name), mention),
  );
}

/** A formula on a line of its own. */
export const formulaBlock = (formula: string): string => `<p class="formula">${code(`=${formula}`)}</p>`;

/** Arguments are separated by semicolons where the decimal sign is a comma. */
export function withSemicolons(formula: string): string {
  return formula
    .split(/("[^"]*")/)
    .map((piece) =>
      piece.startsWith('"') ? piece : piece.replaceAll(",", ";").replaceAll(/(\d)\.(\d)/g, "$1,$2"),
    )
    .join("");
}

/** A section, omitted if it is empty. */
export const section = (title: string, html: string): string =>
  html === "" ? "" : `<section>\n<h2>${title}</h2>\n${html}\n</section>\n`;

export const list = (items: readonly string[], kind: "ul" | "ol" = "ul"): string =>
  `<${kind}>\n${items.map((item) => `<li>${item}</li>`).join("\n")}\n</${kind}>`;

/** Cells of a table, already HTML; the first of each row is its heading. A table that is too wide scrolls by itself. */
export function table(
  name: string,
  headings: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  const head = headings.map((heading) => `<th scope="col">${heading}</th>`).join("");
  const body = rows.map(([first = "", ...cells]) =>
    [`<tr><th scope="row">${first}</th>`, ...cells.map((cell) => `<td>${cell}</td>`), "</tr>"].join(""),
  );
  return `<div class="wide" role="region" tabindex="0" aria-label="${escape(name)}">
<table><thead><tr>${head}</tr></thead>
<tbody>
${body.join("\n")}
</tbody></table></div>`;
}

export const INDEX = "index.html";
export const WHEN = "when.html";
export const STYLE_SHEET = "help.css";

/** Links on every page. */
const places: readonly (readonly [file: string, says: string])[] = [
  [INDEX, "All functions"],
  [WHEN, "Which one when"],
  ...kinds.map((kind) => [readingPage(kind), capital(kindOf({ kind }))] as const),
];

/** A whole page. @param file its own name, which is not linked */
export function helpPage(file: string, title: string, html: string): string {
  const ways = places.map(([to, says]) =>
    to === file ? `<li><span aria-current="page">${says}</span></li>` : `<li>${link(to, says)}</li>`,
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escape(title)} · Gylesheet</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="${STYLE_SHEET}">
</head>
<body>
<nav aria-label="Help"><ul>${ways.join("")}</ul></nav>
<main>
<h1>${escape(title)}</h1>
${html}</main>
</body>
</html>
`;
}
