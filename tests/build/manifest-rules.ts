// What a manifest has to keep to that its schema does not say, and limits that the schema does say, so that they are checked
// where there is no schema.
import { attributeOf, parseXml, type XmlElement } from "../../src/workbook/xml/xml-tree.js";

/** A manifest as it is looked at, and what its server has. */
export interface Subject {
  readonly all: readonly XmlElement[];
  /** The file at a path below the origin. */
  readonly file: (path: string) => Uint8Array | undefined;
}

/** What is wrong, a line each. */
export type Rule = (subject: Subject) => string[];

export function subject(xml: string, file: Subject["file"]): Subject {
  return { all: [...descend(parseXml("manifest.xml", xml))], file };
}

function* descend(element: XmlElement): Generator<XmlElement> {
  yield element;
  for (const child of element.children) yield* descend(child);
}

const named = (all: readonly XmlElement[], local: string): XmlElement[] =>
  all.filter((element) => element.local === local);

const typed = (all: readonly XmlElement[], type: string): XmlElement[] =>
  all.filter((element) => attributeOf(element, "xsi:type") === type);

const resid = (element: XmlElement | undefined): string | undefined => attributeOf(element, "resid");

const value = (element: XmlElement | undefined): string => attributeOf(element, "DefaultValue") ?? "";

/** Resources by id: their kind and value. */
function resources(all: readonly XmlElement[]): Map<string, { kind: string; value: string }> {
  const kinds = ["Images", "Urls", "ShortStrings", "LongStrings"];
  return new Map(
    kinds.flatMap((kind) =>
      (named(all, kind)[0]?.children ?? []).map(
        (entry) => [attributeOf(entry, "id") ?? "", { kind, value: value(entry) }] as const,
      ),
    ),
  );
}

/** The kind of resource that an element may name. */
function kindFor(element: XmlElement): string {
  if (element.local === "Image") return "Images";
  if (["Label", "Title", "Namespace"].includes(element.local)) return "ShortStrings";
  return element.local === "Description" ? "LongStrings" : "Urls";
}

export const resourcesExist: Rule = ({ all }) => {
  const known = resources(all);
  return all
    .filter((element) => resid(element) !== undefined)
    .filter((element) => known.get(resid(element) ?? "")?.kind !== kindFor(element))
    .map((element) => `${element.local} names ${resid(element) ?? ""}, not one of ${kindFor(element)}`);
};

export const resourcesUsed: Rule = ({ all }) => {
  const used = new Set(all.map(resid));
  return [...resources(all).keys()].filter((id) => !used.has(id)).map((id) => `nothing names ${id}`);
};

export const onlyHttps: Rule = ({ all }) =>
  all
    .map(value)
    .filter((text) => /^\w+:\/\//.test(text) && !text.startsWith("https://"))
    .map((text) => `${text} is not https`);

const origin = (all: readonly XmlElement[]): string =>
  value(named(all, "IconUrl")[0]).replace(/\/icons\/.*/, "");

const fileAt = ({ all, file }: Subject, url: string): Uint8Array | undefined => {
  const start = `${origin(all)}/`;
  return url.startsWith(start) ? file(url.slice(start.length)) : undefined;
};

export const addressesLead: Rule = (subject) =>
  subject.all
    .map(value)
    .filter((text) => text.startsWith("https://") && fileAt(subject, text) === undefined)
    .map((text) => `there is nothing at ${text}`);

/** Width and height in the first chunk of a PNG file. */
function pngSize(bytes: Uint8Array | undefined): string {
  if (bytes === undefined || Buffer.from(bytes.subarray(1, 4)).toString("latin1") !== "PNG") return "no PNG";
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return `${view.getUint32(16)}x${view.getUint32(20)}`;
}

export const iconsMeasure: Rule = (subject) => {
  const known = resources(subject.all);
  const wanted = [
    [value(named(subject.all, "IconUrl")[0]), "32"],
    [value(named(subject.all, "HighResolutionIconUrl")[0]), "64"],
    ...named(subject.all, "Icon").flatMap((icon) =>
      icon.children.map((image) => [
        known.get(resid(image) ?? "")?.value ?? "",
        attributeOf(image, "size") ?? "",
      ]),
    ),
  ] as const;
  return wanted
    .map(([url = "", size = ""]) => ({ url, size, is: pngSize(fileAt(subject, url)) }))
    .filter(({ size, is }) => is !== `${size}x${size}`)
    .map(({ url, size, is }) => `${url} is ${is}, not ${size}x${size}`);
};

const iconSizes = ["16", "20", "24", "32", "40", "48", "64", "80"];

export const iconsComplete: Rule = ({ all }) =>
  named(all, "Icon").flatMap((icon) => {
    const sizes = icon.children.map((image) => attributeOf(image, "size") ?? "");
    return iconSizes.filter((size) => !sizes.includes(size)).map((size) => `an icon has no size ${size}`);
  });

export const onePage: Rule = ({ all }) => {
  const runtimes = named(all, "Runtime");
  const [runtime] = runtimes;
  const page = resid(runtime);
  const host = typed(all, "Workbook")[0];
  const inside = (parent: XmlElement | undefined): string | undefined =>
    resid(parent?.children.find(({ local }) => local === "SourceLocation"));
  const naming = {
    Page: inside(named(all, "Page")[0]),
    FunctionFile: resid(named(all, "FunctionFile")[0]),
    ShowTaskpane: inside(typed(all, "ShowTaskpane")[0]),
  };
  const source = named(all, "DefaultSettings")[0]?.children[0];
  return [
    ...(runtimes.length === 1 ? [] : [`there are ${runtimes.length} runtimes`]),
    ...(attributeOf(runtime, "lifetime") === "long" ? [] : ["the runtime does not live long"]),
    ...(host?.children[0]?.local === "Runtimes" ? [] : ["Runtimes does not come first"]),
    ...Object.entries(naming)
      .filter(([, named]) => named !== page)
      .map(([where, named]) => `${where} names ${named ?? "nothing"}`),
    ...(value(source) === resources(all).get(page ?? "")?.value ? [] : ["SourceLocation is another page"]),
  ];
};

const limits: readonly [of: string, limit: number, texts: (all: readonly XmlElement[]) => string[]][] = [
  ["ProviderName", 125, (all) => named(all, "ProviderName").map(({ text }) => text)],
  ["DisplayName", 125, (all) => named(all, "DisplayName").map(value)],
  ["short string", 125, (all) => ofKind(all, "ShortStrings")],
  ["long string", 250, (all) => ofKind(all, "LongStrings")],
  ["Description", 250, (all) => named(all, "Description").map(value)],
  ["address", 2048, (all) => all.map(value).filter((text) => text.startsWith("https://"))],
  ["resid", 32, (all) => all.map((element) => resid(element) ?? "")],
  ["id of a resource", 32, (all) => [...resources(all).keys()]],
];

const ofKind = (all: readonly XmlElement[], kind: string): string[] =>
  [...resources(all).values()].filter((entry) => entry.kind === kind).map((entry) => entry.value);

export const lengths: Rule = ({ all }) =>
  limits.flatMap(([of, limit, texts]) =>
    texts(all)
      .filter((text) => text.length > limit)
      .map((text) => `a ${of} has ${text.length} characters, more than ${limit}`),
  );

const forms: readonly [element: string, form: RegExp][] = [
  ["Id", /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/],
  ["Version", /^\d{1,5}(\.\d{1,5}){3}$/],
  ["Permissions", /^ReadWriteDocument$/],
];

export const formsRight: Rule = ({ all }) =>
  forms.flatMap(([element, form]) => {
    const text = named(all, element)[0]?.text ?? "";
    return form.test(text) ? [] : [`${element} is "${text}"`];
  });
