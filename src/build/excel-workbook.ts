// A workbook that asks Excel for the add-in as it opens.
import { declareType } from "../workbook/package/content-types.js";
import { PackagePatch } from "../workbook/package/package-patch.js";
import { Package } from "../workbook/package/package.js";
import { addRelationship, xmlDeclaration } from "../workbook/package/relationships.js";
import { unzip } from "../workbook/package/unzip.js";
import { escapeAttribute } from "../workbook/xml/xml-text.js";

const relationshipTypes = "http://schemas.microsoft.com/office/2011/relationships";
const extensionNamespace = "http://schemas.microsoft.com/office/webextensions";
const officeRelationships = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/**
 * A workbook that opens with the add-in's pane. Excel looks for the add-in among those that its developer has
 * registered, and asks the user before it starts it.
 *
 * @param bytes a workbook without add-ins
 * @param id of the add-in
 * @param version in four numbers, as in the manifest
 */
export async function withPane(bytes: Uint8Array, id: string, version: string): Promise<Uint8Array> {
  const patch = new PackagePatch(new Package(await unzip(bytes)));
  const panes = "xl/webextensions/taskpanes.xml";
  const extension = "xl/webextensions/webextension1.xml";
  const escaped = escapeAttribute(id);
  patch.write(
    extension,
    `${xmlDeclaration}<we:webextension xmlns:we="${extensionNamespace}/webextension/2010/11" id="{${escaped}}"><we:reference id="${escaped}" version="${escapeAttribute(version)}" store="developer" storeType="Registry"/><we:alternateReferences/><we:properties/><we:bindings/><we:snapshot xmlns:r="${officeRelationships}"/></we:webextension>`,
  );
  declareType(patch, extension, "application/vnd.ms-office.webextension+xml");
  const reference = addRelationship(patch, panes, `${relationshipTypes}/webextension`, extension);
  patch.write(
    panes,
    `${xmlDeclaration}<wetp:taskpanes xmlns:wetp="${extensionNamespace}/taskpanes/2010/11"><wetp:taskpane dockstate="right" visibility="1" width="350" row="1"><wetp:webextensionref xmlns:r="${officeRelationships}" r:id="${reference}"/></wetp:taskpane></wetp:taskpanes>`,
  );
  declareType(patch, panes, "application/vnd.ms-office.webextensiontaskpanes+xml");
  addRelationship(patch, "", `${relationshipTypes}/webextensiontaskpanes`, panes);
  return patch.zip();
}
