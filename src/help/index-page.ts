import { catalogue } from "../functions/catalogue.js";
import { NAMESPACE, topics } from "../functions/contract/function-spec.js";
import { helpFile } from "../functions/metadata.js";
import { kindOf, kinds } from "../instruments/describe.js";
import { readingPage } from "../instruments/reading-page.js";
import { code, escape, INDEX, link, list, helpPage, section, WHEN } from "./html.js";

/** The list of all functions, ordered by question. */
export function indexPage(): string {
  const ways = list([
    link(WHEN, "Which function when, through a brew day"),
    ...kinds.map((kind) => `Taking a good reading: ${link(readingPage(kind), kindOf({ kind }))}`),
  ]);
  const sections = topics.map((topic) =>
    section(
      escape(topic),
      list(
        catalogue
          .filter((spec) => spec.topic === topic)
          .map(
            ({ name, question }) =>
              `${link(helpFile(name), escape(question))}<br>${code(`${NAMESPACE}.${name}`)}`,
          ),
      ),
    ),
  );
  return helpPage(
    INDEX,
    "Gylesheet help",
    `<p>Every function has a page: what it takes, a worked example with its numbers, what it covers, how sure it is, and what its errors mean.</p>\n${ways}\n${sections.join("")}`,
  );
}
