// What is well-formed is for an independent reader to say: saxes, which is strict. Ours is quicker and knows where everything stands.
import fc from "fast-check";
import { SaxesParser } from "saxes";
import { describe, expect, test } from "vitest";
import { WorkbookError } from "../../../src/workbook/error.js";
import { scanXml } from "../../../src/workbook/xml/xml-scan.js";

/** What a reader makes of a document: opening tags with their attributes, text and closing tags, in order. */
type Events = readonly string[];

/** Text may arrive in pieces. */
class Heard {
  readonly #events: string[] = [];
  #text = "";

  tag(event: string): void {
    if (this.#text !== "") this.#events.push(`text ${this.#text}`);
    this.#text = "";
    this.#events.push(event);
  }

  text(data: string): void {
    this.#text += data;
  }

  get all(): Events {
    return this.#events;
  }
}

const opened = (name: string, attributes: readonly (readonly [string, string])[]): string =>
  `open ${name} ${JSON.stringify(attributes)}`;

/** By ours; undefined where it refuses the document. */
function byOurs(xml: string): Events | undefined {
  const heard = new Heard();
  try {
    scanXml("part.xml", xml, {
      open: ({ name, attributes }) => {
        heard.tag(
          opened(
            name,
            attributes.map((each) => [each.name, each.value] as const),
          ),
        );
      },
      text: (data) => {
        heard.text(data);
      },
      close: (name) => {
        heard.tag(`close ${name}`);
      },
    });
  } catch (error) {
    if (!(error instanceof WorkbookError)) throw error;
    return undefined;
  }
  return heard.all;
}

/** By saxes, which is told to refuse DTDs as ours does. */
function bySaxes(xml: string): Events | undefined {
  const heard = new Heard();
  const parser = new SaxesParser({ defaultXMLVersion: "1.0", forceXMLVersion: true });
  let depth = 0;
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("doctype", () => {
    throw new Error("a DTD");
  });
  parser.on("opentag", ({ name, attributes }) => {
    depth++;
    heard.tag(opened(name, Object.entries(attributes)));
  });
  const text = (data: string): void => {
    if (depth > 0) heard.text(data);
  };
  parser.on("text", text);
  parser.on("cdata", text);
  parser.on("closetag", ({ name }) => {
    depth--;
    heard.tag(`close ${name}`);
  });
  try {
    parser.write(xml).close();
  } catch {
    return undefined;
  }
  return heard.all;
}

const SOUND = [
  '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\r\n<worksheet xmlns="urn:a" xmlns:r="urn:b"><sheetData><row r="1" spans="1:2"><c r="A1" t="s"><v>0</v></c><c r="B1"><f>IF(A1&gt;1,"a&amp;b",\'S\'!C1)</f><v>1.5</v></c></row></sheetData></worksheet>',
  '<?xml version=\'1.0\'?><sst count="2"><si><t xml:space="preserve"> a &#x41;&#65;\r\n</t></si><!-- a comment --><si><t><![CDATA[<&>]]></t></si></sst>',
  '<a\n b = "1"\tc:d=\'"\'\r><?pi data?><b/><größe x-y.z="ä"/>t\rext</a ><!---->\n<?end?>',
  '\uFEFF<x:a _b=""><x:b>&quot;&apos;&lt;</x:b></x:a>',
];

const SCRAPS = [
  ...[
    "<",
    ">",
    "&",
    '"',
    "'",
    "/",
    "=",
    "-",
    "--",
    "-->",
    "<!--",
    "]]>",
    "<![CDATA[",
    "<?",
    "?>",
    "<!",
    ";",
    "#",
  ],
  ...[
    "&amp;",
    "&nbsp;",
    "&#0;",
    "&#xD800;",
    "&#x1F600;",
    "&#9;",
    "&#x;",
    "&AMP;",
    "<!DOCTYPE a>",
    "<!ENTITY x 'y'>",
  ],
  ...[
    " ",
    "\t",
    "\n",
    "\r",
    "\f",
    "\v",
    "\u0000",
    "\u0001",
    "\u0085",
    "\u00A0",
    "\u2028",
    "\uFEFF",
    "\uFFFE",
    "\uFFFF",
  ],
  ...[
    "\uDC00",
    "\u{1F600}",
    "ä",
    "×",
    "\u0300",
    "\u00B7",
    "\u203F",
    "\u2190",
    "a",
    "1",
    ":",
    "x:",
    ".",
    "xmlns",
    "xml",
  ],
  ...[
    ' b="2"',
    ' r="1"',
    ' xmlns:x=""',
    "</a>",
    "<a>",
    "<b/>",
    "<?xml version='1.0'?>",
    "<?XML?>",
    "<?xml-s a?>",
  ],
  ...[
    ' version="1.1"',
    ' encoding="UTF-16"',
    ' encoding="latin-1"',
    " standalone='no'",
    ' encoding=""',
    "version",
  ],
];

const damaged = fc
  .tuple(
    fc.constantFrom(...SOUND),
    fc.array(fc.tuple(fc.nat(), fc.constantFrom(0, 0, 1, 2, 5), fc.constantFrom("", ...SCRAPS)), {
      minLength: 1,
      maxLength: 2,
    }),
  )
  .map(([sound, changes]) =>
    changes.reduce((xml, [at, less, more]) => {
      const from = at % (xml.length + 1);
      return xml.slice(0, from) + more + xml.slice(from + less);
    }, sound),
  );

/** Saxes lets a question mark stand behind the name of an instruction, where XML 1.0 (production 16) wants a space or the end. */
const lenient = /<\?[^\s?]*\?(?!>)/;

describe("ours and saxes", () => {
  test.each(SOUND)("hear the same of a document that is sound: %j", (xml) => {
    expect(byOurs(xml)).toEqual(bySaxes(xml));
    expect(byOurs(xml)).toBeDefined();
  });

  test("refuse the same damaged documents, and hear the same of the others", () => {
    fc.assert(
      fc.property(damaged, (xml) => {
        fc.pre(!lenient.test(xml));
        expect(byOurs(xml)).toEqual(bySaxes(xml));
      }),
      { numRuns: 3000 },
    );
  });
});
