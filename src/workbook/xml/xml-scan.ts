import { QuoteType, Tokenizer, type TokenizerCallbacks } from "htmlparser2";
import { WorkbookError } from "../error.js";
import { attributeLimit, depthLimit } from "../limits.js";
import type { OpenTag, XmlAttribute, XmlHandler } from "./xml-events.js";
import { isXmlName } from "./xml-name.js";
import {
  byteOrderMark,
  decodeCharacters,
  isXmlChar,
  isXmlSpace,
  normalizedAttribute,
  withoutByteOrderMark,
} from "./xml-text.js";

/**
 * Scans an XML part and reports its events with offsets. htmlparser2 tokenizes it and forgives what HTML forgives, so
 * well-formedness is checked here: the tokens must lie end to end and nest.
 *
 * @throws WorkbookError if the part is not well-formed, exceeds the limits of depth or attributes, or declares a DTD
 */
export function scanXml(part: string, xml: string, handler: XmlHandler): void {
  for (let i = 0; i < xml.length; i++) {
    const code = xml.charCodeAt(i);
    if (code >= 0x20 && code < 0xd800) continue;
    const character = xml.codePointAt(i) ?? 0;
    if (!isXmlChar(character)) throw malformed(part);
    if (character > 0xffff) i++;
  }
  const tokenizer = new Tokenizer({ xmlMode: true, decodeEntities: false }, new Scanner(part, xml, handler));
  tokenizer.write(xml);
  tokenizer.end();
}

const space = "[ \\t\\r\\n]";
const field = (name: string, value: string): string =>
  `${space}+${name}${space}*=${space}*(?:"(?:${value})"|'(?:${value})')`;

/** Content of the XML declaration at the start of a document. */
const declaration = new RegExp(
  `^xml${field("version", "1\\.[0-9]+")}(?:${field("encoding", "[A-Za-z][A-Za-z0-9._-]*")})?` +
    `(?:${field("standalone", "yes|no")})?${space}*$`,
);

function malformed(part: string): WorkbookError {
  return new WorkbookError(`is damaged: ${part} is not well-formed XML`);
}

class Scanner implements TokenizerCallbacks, OpenTag {
  name = "";
  start = 0;
  end = 0;
  selfClosing = false;
  attributes: XmlAttribute[] = [];

  private readonly open: string[] = [];
  private readonly knownNames = new Set<string>();
  private position = 0;
  private rootSeen = false;
  /** End of the last token inside the current tag; only white space may follow it. */
  private gap = 0;
  private attribute = { name: "", start: 0, valueStart: 0, valueEnd: 0 };

  constructor(
    private readonly part: string,
    private readonly xml: string,
    private readonly handler: XmlHandler,
  ) {}

  value(name: string): string | undefined {
    return this.attributes.find((attribute) => attribute.name === name)?.value;
  }

  onopentagname(start: number, end: number): void {
    this.expect(start - 1 === this.position && (this.open.length > 0 || !this.rootSeen));
    this.name = this.checkedName(start, end);
    this.start = start - 1;
    this.gap = end;
    this.attributes = [];
  }

  onattribname(start: number, end: number): void {
    this.expect(start > this.gap);
    this.expectSpace(this.gap, start);
    this.attribute = { name: this.checkedName(start, end), start, valueStart: 0, valueEnd: 0 };
  }

  onattribdata(start: number, end: number): void {
    this.attribute.valueStart = start;
    this.attribute.valueEnd = end;
  }

  onattribend(quote: QuoteType, end: number): void {
    this.expect(quote === QuoteType.Double || quote === QuoteType.Single);
    const { name, start, valueStart, valueEnd } = this.attribute;
    this.expect(this.value(name) === undefined);
    if (this.attributes.length >= attributeLimit) {
      throw new WorkbookError(`has a tag of more than ${attributeLimit} attributes in ${this.part}; refused`);
    }
    const raw = this.xml.slice(valueStart, valueEnd);
    this.expect(!raw.includes("<"));
    const value = this.decoded(normalizedAttribute(raw));
    this.attributes.push({ name, value, start, end, valueStart, valueEnd });
    this.gap = end;
  }

  onopentagend(index: number): void {
    this.expectSpace(this.gap, index);
    this.finishTag(index + 1, false);
  }

  onselfclosingtag(index: number): void {
    this.expect(this.xml.charCodeAt(index - 1) === 47 && index > this.gap);
    this.expectSpace(this.gap, index - 1);
    this.finishTag(index + 1, true);
  }

  onclosetag(start: number, end: number): void {
    const after = this.xml.indexOf(">", end) + 1;
    this.expect(start - 2 === this.position && after > 0);
    this.expectSpace(end, after - 1);
    const name = this.xml.slice(start, end);
    this.expect(this.open.pop() === name);
    const from = this.position;
    this.position = after;
    this.handler.close(name, from, after);
  }

  ontext(start: number, end: number): void {
    this.expect(start === this.position && this.xml.charCodeAt(start) !== 60);
    const raw = this.xml.slice(start, end);
    this.expect(!raw.includes("]]>"));
    this.position = end;
    if (this.open.length > 0) this.handler.text?.(this.decoded(raw));
    else this.expectSpace(start === 0 && raw.startsWith(byteOrderMark) ? 1 : start, end);
  }

  oncdata(start: number, end: number): void {
    this.expect(start - 9 === this.position && this.open.length > 0 && this.xml.startsWith("]]>", end - 2));
    this.position = end + 1;
    this.handler.text?.(
      this.xml
        .slice(start, end - 2)
        .replaceAll("\r\n", "\n")
        .replaceAll("\r", "\n"),
    );
  }

  oncomment(start: number, end: number): void {
    this.expect(start - 4 === this.position && end - 2 >= start && this.xml.startsWith("-->", end - 2));
    this.expect(this.xml.indexOf("--", start) === end - 2);
    this.position = end + 1;
  }

  onprocessinginstruction(start: number, end: number): void {
    this.expect(start - 2 === this.position);
    this.position = end + 2;
    const data = this.xml.slice(start, end);
    const [target = ""] = data.split(/[ \t\r\n]/, 1);
    this.expect(isXmlName(target));
    if (target.toLowerCase() !== "xml") return;
    this.expect(withoutByteOrderMark(this.xml.slice(0, start - 2)) === "" && declaration.test(data));
  }

  ondeclaration(start: number, end: number): void {
    const declaration = this.xml.slice(start, end);
    // Entities can be bombs (exponential expansion), and no part of a workbook needs one.
    if (declaration.startsWith("DOCTYPE") || declaration.startsWith("ENTITY")) {
      throw new WorkbookError(`declares a DTD in ${this.part}; refused`);
    }
    throw malformed(this.part);
  }

  onend(): void {
    this.expect(this.rootSeen && this.open.length === 0 && this.position === this.xml.length);
  }

  // References are decoded here, not in the tokenizer, which would read &#128; as HTML does.
  onattribentity(): void {
    this.expect(false);
  }
  ontextentity(): void {
    this.expect(false);
  }

  private finishTag(end: number, selfClosing: boolean): void {
    const { name } = this;
    this.end = end;
    this.selfClosing = selfClosing;
    this.position = end;
    this.rootSeen = true;
    if (this.open.length >= depthLimit) {
      throw new WorkbookError(`nests elements more than ${depthLimit} deep in ${this.part}; refused`);
    }
    if (!selfClosing) this.open.push(name);
    this.handler.open(this);
    if (selfClosing) this.handler.close(name, end, end);
  }

  private checkedName(start: number, end: number): string {
    const name = this.xml.slice(start, end);
    if (!this.knownNames.has(name)) {
      this.expect(isXmlName(name));
      this.knownNames.add(name);
    }
    return name;
  }

  private decoded(raw: string): string {
    const text = decodeCharacters(raw);
    if (text === undefined) throw malformed(this.part);
    return text;
  }

  private expectSpace(start: number, end: number): void {
    for (let i = start; i < end; i++) this.expect(isXmlSpace(this.xml.charCodeAt(i)));
  }

  private expect(holds: boolean): void {
    if (!holds) throw malformed(this.part);
  }
}
