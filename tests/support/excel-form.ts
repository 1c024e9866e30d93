import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import type { Cell } from "../../src/workbook/model.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { cellAddress, areaText } from "../../src/cells/a1.js";

// The same workbook as Excel saves it (read from public files: the reproduction of office-js issue 6611, saved by Excel
// for Mac). Every formula with a function of an add-in is a dynamic array there, of one cell where it gives one value:
//   <c r="A1" cm="1"><f t="array" ref="A1">_xldudf_CONTOSO_ADD(1,2)</f><v>3</v></c>                      bound
//   <c r="A1" t="e" cm="1"><f t="array" aca="1" ref="A1" ca="1">CONTOSO.ADD(1,2)</f><v>#NAME?</v></c>   never bound

const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const microsoft = "http://schemas.microsoft.com/office";
const spreadsheet = "application/vnd.openxmlformats-officedocument.spreadsheetml";

const metadata =
  `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="${main}" ` +
  `xmlns:xda="${microsoft}/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" ` +
  'minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" ' +
  'clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes>' +
  '<futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}">' +
  '<xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata>' +
  '<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>';

const taskPanes =
  `<wetp:taskpanes xmlns:wetp="${microsoft}/webextensions/taskpanes/2010/11"><wetp:taskpane dockstate="right" visibility="0" ` +
  `width="350" row="4"><wetp:webextensionref xmlns:r="${office}" r:id="rId1"/></wetp:taskpane></wetp:taskpanes>`;

const webExtension = (ids: string): string =>
  `<we:webextension xmlns:we="${microsoft}/webextensions/webextension/2010/11" id="{8A1E6F2C-5D3B-4C57-9B60-2F1D7E3A9C41}">` +
  '<we:reference id="8a1e6f2c-5d3b-4c57-9b60-2f1d7e3a9c41" version="1.0.0.0" store="developer" storeType="Registry"/>' +
  "<we:alternateReferences/><we:properties/><we:bindings/>" +
  `<we:snapshot xmlns:r="${office}"/><we:extLst><a:ext xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" ` +
  `uri="{7C84B067-C214-45C3-A712-C9D94CD141B2}"><we:customFunctionIdList><we:customFunctionIds>${ids}</we:customFunctionIds>` +
  "</we:customFunctionIdList></a:ext></we:extLst></we:webextension>";

/** How far Excel knew our functions when it saved. */
export type Binding =
  /** It had the add-in. */
  | "bound"
  /** The formulas were typed without the add-in, and so it calculated none of them. */
  | "unbound"
  /** Another add-in stood in the way: "[2]!_xldudf_…" (office-js issue 2568). */
  | "elsewhere";

const ours = /_xldudf_GYLE_[A-Z0-9_.]+|GYLE\.[A-Z0-9.]+/gi;

const spelled: Readonly<Record<Binding, (name: string) => string>> = {
  bound: (name) => (name.startsWith("_") ? name : `_xldudf_${name.replaceAll(".", "_")}`),
  unbound: (name) => name.replace(/^_xldudf_/, "").replaceAll("_", "."),
  elsewhere: (name) => `[2]!${spelled.bound(name)}`,
};

/**
 * A workbook as Excel would have saved it: every formula that calls ours is a dynamic array, the metadata that says so is
 * there, a calculation chain, and the task pane that Excel remembers. Other formulas, and all values unless Excel had no
 * add-in, stay as they were.
 *
 * @throws Error for a workbook whose parts are not in the usual places
 */
export async function asExcelSaves(bytes: Uint8Array, binding: Binding = "bound"): Promise<Uint8Array> {
  const { model } = await openWorkbook(bytes);
  const parts = new Map(Object.entries(unzipSync(bytes)).map(([name, data]) => [name, data]));
  const text = (name: string): string => {
    const data = parts.get(name);
    if (!data) throw new Error(`no part ${name}`);
    return strFromU8(data);
  };
  const write = (name: string, xml: string): void => {
    parts.set(name, strToU8(xml));
  };
  const add = (part: string, before: string, xml: string): void => {
    const cut = text(part).lastIndexOf(before);
    if (cut < 0) throw new Error(`no ${before} in ${part}`);
    write(part, text(part).slice(0, cut) + xml + text(part).slice(cut));
  };
  const relationships = text("xl/_rels/workbook.xml.rels");
  const cm = /sheetMetadata"/.test(relationships) ? undefined : 1;
  const workbook = text("xl/workbook.xml");
  const ids = new Set<string>();
  const chain: string[] = [];
  for (const [index, { name, cells }] of model.sheets.entries()) {
    const part = sheetPart(workbook, relationships, name);
    write(part, inExcelForm(text(part), cells, binding, ids));
    for (const { row, column, formula } of cells)
      if (formula) chain.push(`<c r="${cellAddress(row, column)}" i="${index + 1}"/>`);
  }
  if (cm !== undefined) {
    write("xl/metadata.xml", metadata);
    add("[Content_Types].xml", "</Types>", override("xl/metadata.xml", `${spreadsheet}.sheetMetadata+xml`));
    add(
      "xl/_rels/workbook.xml.rels",
      "</Relationships>",
      relation("rIdMeta", `${office}/sheetMetadata`, "metadata.xml"),
    );
  }
  if (!/calcChain"/.test(relationships) && chain.length > 0) {
    write("xl/calcChain.xml", `<calcChain xmlns="${main}">${chain.join("")}</calcChain>`);
    add("[Content_Types].xml", "</Types>", override("xl/calcChain.xml", `${spreadsheet}.calcChain+xml`));
    add(
      "xl/_rels/workbook.xml.rels",
      "</Relationships>",
      relation("rIdChain", `${office}/calcChain`, "calcChain.xml"),
    );
  }
  if (binding !== "unbound" && ids.size > 0) {
    write("xl/webextensions/taskpanes.xml", taskPanes);
    write("xl/webextensions/webextension1.xml", webExtension([...ids].join(",")));
    write(
      "xl/webextensions/_rels/taskpanes.xml.rels",
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
        `${relation("rId1", `${microsoft}/2011/relationships/webextension`, "webextension1.xml")}</Relationships>`,
    );
    const type = "application/vnd.ms-office.webextension";
    add(
      "[Content_Types].xml",
      "</Types>",
      override("xl/webextensions/taskpanes.xml", `${type}taskpanes+xml`),
    );
    add("[Content_Types].xml", "</Types>", override("xl/webextensions/webextension1.xml", `${type}+xml`));
    const kind = `${microsoft}/2011/relationships/webextensiontaskpanes`;
    add("_rels/.rels", "</Relationships>", relation("rIdPanes", kind, "xl/webextensions/taskpanes.xml"));
  }
  return zipSync(Object.fromEntries(parts), { mtime: new Date(2026, 0, 5, 8, 30) });
}

const override = (part: string, type: string): string =>
  `<Override PartName="/${part}" ContentType="${type}"/>`;
const relation = (id: string, type: string, target: string): string =>
  `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`;

function sheetPart(workbook: string, relationships: string, name: string): string {
  const sheet = [...workbook.matchAll(/<sheet [^>]*>/g)].find(([tag]) =>
    unescaped(tag).includes(`name="${name}"`),
  )?.[0];
  const id = /r:id="([^"]*)"/.exec(sheet ?? "")?.[1];
  const tag = [...relationships.matchAll(/<Relationship [^>]*>/g)].find(([each]) =>
    each.includes(`Id="${id ?? ""}"`),
  )?.[0];
  const target = /Target="([^"]*)"/.exec(tag ?? "")?.[1];
  if (target === undefined) throw new Error(`no part for the sheet ${name}`);
  return target.startsWith("/") ? target.slice(1) : `xl/${target}`;
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
const unescaped = (text: string): string =>
  text
    .replaceAll("&apos;", "'")
    .replaceAll("&quot;", '"')
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&");

function inExcelForm(xml: string, cells: readonly Cell[], binding: Binding, ids: Set<string>): string {
  const own = new Map(
    cells.flatMap((cell) =>
      cell.formula && cell.formula.text.search(ours) >= 0
        ? [[cellAddress(cell.row, cell.column), cell] as const]
        : [],
    ),
  );
  return xml.replace(/<c ((?:[^>"]|"[^"]*")*)>(.*?)<\/c>/gs, (whole, attributes: string, content: string) => {
    const cell = own.get(/\br="([A-Z]+\d+)"/.exec(attributes)?.[1] ?? "");
    if (!cell?.formula || !content.includes("<f")) return whole;
    const { formula, row, column } = cell;
    // What was entered with Ctrl+Shift+Enter stays so.
    if (formula.kind === "array") return whole;
    for (const [name] of formula.text.matchAll(ours))
      ids.add(spelled.bound(name).toUpperCase().replace("_XLDUDF_", "_xldudf_"));
    const text = escaped(
      formula.text.replace(
        /(\[\d+\]!)?(_xldudf_GYLE_[A-Z0-9_.]+|GYLE\.[A-Z0-9.]+)/gi,
        (_, __, name: string) => spelled[binding](name),
      ),
    );
    const ref = formula.area ? areaText(formula.area) : cellAddress(row, column);
    const marked = attributes.includes(" cm=") ? attributes : `${attributes} cm="1"`;
    if (binding === "bound")
      return `<c ${marked}><f t="array" ref="${ref}">${text}</f>${content.replace(/<f\b[^>]*?(?:\/>|>.*?<\/f>)/s, "")}</c>`;
    const failed = marked.replace(/ t="[^"]*"/, "");
    return `<c ${failed} t="e"><f t="array" aca="1" ref="${cellAddress(row, column)}" ca="1">${text}</f><v>#NAME?</v></c>`;
  });
}
