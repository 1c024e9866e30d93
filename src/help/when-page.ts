import { specNamed } from "../functions/catalogue.js";
import { helpFile } from "../functions/metadata.js";
import { brewDay } from "./brew-day.js";
import { code, escape, link, list, helpPage, section, WHEN } from "./html.js";

/** Which function when: all of them, in the order of a brew day. */
export function whenPage(): string {
  const sections = brewDay.map(({ title, says, functions }) => {
    const items = functions.map((name) => {
      const { question } = specNamed(name);
      return `${escape(question)}<br>${link(helpFile(name), code(name))}`;
    });
    return section(escape(title), `<p>${escape(says)}</p>\n${list(items)}`);
  });
  return helpPage(WHEN, "Which function when", sections.join(""));
}
