import { Parser } from "htmlparser2";
import { InstrumentsRefused } from "./refusal.js";
import { formatSet, parseSet, type InstrumentSet } from "./set.js";

/** Root namespace of the workbook part, by which every copy of the add-in finds it. */
export const partNamespace = "urn:gylesheet:instruments";
const ROOT = "instruments";

const escape = (text: string): string =>
  text.replace(/[&<>]/g, (c) => (c === "&" ? "&amp;" : c === "<" ? "&lt;" : "&gt;"));

/** XML of the workbook part for a set of instruments. */
export function writePart(set: InstrumentSet): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<${ROOT} xmlns="${partNamespace}">${escape(formatSet(set))}</${ROOT}>`;
}

const unreadable = (why: string): InstrumentsRefused =>
  new InstrumentsRefused("unreadable", [`The workbook's instruments cannot be read: ${why}.`]);

/**
 * Reads the workbook part: one element of our namespace with the set as JSON text, and nothing else.
 *
 * @throws InstrumentsRefused for anything else, including declared entities; the part must then be left as it is
 */
export function readPart(xml: string): InstrumentSet {
  const found = { text: "", depth: 0, closed: false };
  const parser = new Parser(
    {
      onopentag(name, { xmlns }) {
        found.depth += 1;
        if (found.depth > 1) throw unreadable(`there is an element <${name}> inside`);
        if (found.closed || name !== ROOT || xmlns !== partNamespace)
          throw unreadable("the root element is not ours");
      },
      ontext(piece) {
        if (found.depth === 1) found.text += piece;
      },
      onclosetag(_name, implied) {
        if (implied) throw unreadable("it ends too early");
        found.depth -= 1;
        found.closed = true;
      },
      onprocessinginstruction(name) {
        if (name.startsWith("!")) throw unreadable("it declares a document type");
      },
    },
    { xmlMode: true },
  );
  parser.end(xml);
  if (!found.closed) throw unreadable("it holds no instruments");
  return parseSet(found.text);
}
