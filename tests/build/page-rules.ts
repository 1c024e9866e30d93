// What the add-in's page has to keep to.
import { parseDocument, DomUtils } from "htmlparser2";

const elements = (html: string, name: string) => DomUtils.getElementsByTagName(name, parseDocument(html));

/** The page's policy by directive. */
export function policy(html: string): Map<string, readonly string[]> {
  const meta = elements(html, "meta").find(
    ({ attribs }) => attribs["http-equiv"] === "Content-Security-Policy",
  );
  const directives = (meta?.attribs["content"] ?? "").split(";").map((text) => text.trim().split(/\s+/));
  return new Map(directives.map(([name = "", ...sources]) => [name, sources]));
}

/** Addresses of its scripts, in their order. */
export const scripts = (html: string): string[] =>
  elements(html, "script").map(({ attribs }) => attribs["src"] ?? "");

/** What is wrong with a page, a line each. */
export function pageFaults(html: string): string[] {
  const directives = policy(html);
  const sources = [...directives.values()].flat();
  const code = elements(html, "script");
  const order = scripts(html).map((address) => address.replace(/.*\//, ""));
  const all = DomUtils.filter((node) => "attribs" in node, parseDocument(html)) as (typeof code)[number][];
  const fault = (wrong: boolean, says: string): string[] => (wrong ? [says] : []);
  return [
    ...fault(
      directives.get("default-src")?.join() !== "'none'",
      "the policy lets through what it does not name",
    ),
    ...fault(directives.get("connect-src")?.join() !== "'none'", "the policy lets connections out"),
    ...fault(
      sources.some((source) => source.startsWith("'unsafe-") || ["*", "https:", "http:"].includes(source)),
      "the policy lets anything in",
    ),
    ...fault(
      code.some(({ children }) => children.length > 0),
      "a script is inline",
    ),
    ...fault(
      elements(html, "style").length > 0 || all.some(({ attribs }) => "style" in attribs),
      "a style is inline",
    ),
    ...fault(
      all.some(({ attribs }) => Object.keys(attribs).some((name) => name.startsWith("on"))),
      "a handler is inline",
    ),
    ...fault(order.join() !== "office.js,functions.js,pane.js", `scripts come as ${order.join()}`),
    ...fault(
      code.some(({ attribs }) => "defer" in attribs || "async" in attribs || "type" in attribs),
      "a script does not block",
    ),
    ...fault(elements(html, "html")[0]?.attribs["lang"] === undefined, "the language is not said"),
    ...fault(elements(html, "noscript").length === 0, "nothing is said without scripts"),
    ...fault(
      elements(html, "div").every(({ attribs }) => attribs["id"] !== "pane"),
      "the pane has no place",
    ),
  ];
}
