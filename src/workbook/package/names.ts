// Names of the file format: namespaces, relationship types, content types. Strict files use other URIs than the usual
// transitional ones for the same things; both are read, and additions follow the file.

const transitionalMain = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const strictMain = "http://purl.oclc.org/ooxml/spreadsheetml/main";
const transitionalRelationships = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const strictRelationships = "http://purl.oclc.org/ooxml/officeDocument/relationships";

/** Whether this is the namespace of workbooks and sheets. */
export function isMain(namespace: string | undefined): boolean {
  return namespace === transitionalMain || namespace === strictMain;
}

/** Whether this is the namespace of r:id. */
export function isRelationshipNamespace(namespace: string | undefined): boolean {
  return namespace === transitionalRelationships || namespace === strictRelationships;
}

/** Namespace of r:id, and base of relationship types, in a file whose workbook has this main namespace. */
export function relationshipsFor(mainNamespace: string): string {
  return mainNamespace === strictMain ? strictRelationships : transitionalRelationships;
}

/** Whether a relationship has the office type that ends with this word, e.g. "worksheet". */
export function isOfficeType(type: string, kind: string): boolean {
  return type === `${transitionalRelationships}/${kind}` || type === `${strictRelationships}/${kind}`;
}

/** The type of a relationship to a drawing with notes; strict files have no other, since VML is not part of the strict format. */
export const vmlDrawingRelationship = `${transitionalRelationships}/vmlDrawing`;

export const customXmlNamespace = "http://schemas.openxmlformats.org/officeDocument/2006/customXml";
export const dynamicArrayNamespace = "http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray";

const spreadsheet = "application/vnd.openxmlformats-officedocument.spreadsheetml";

export const contentTypes = {
  xml: "application/xml",
  relationships: "application/vnd.openxmlformats-package.relationships+xml",
  worksheet: `${spreadsheet}.worksheet+xml`,
  comments: `${spreadsheet}.comments+xml`,
  vml: "application/vnd.openxmlformats-officedocument.vmlDrawing",
  metadata: `${spreadsheet}.sheetMetadata+xml`,
  customXmlProperties: "application/vnd.openxmlformats-officedocument.customXmlProperties+xml",
};
