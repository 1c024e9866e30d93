/// <reference types="office-js" />
import { partNamespace } from "../../instruments/part.js";
import type { PartStore } from "../../instruments/keeper.js";
import { inExcel } from "../problem.js";

interface Part {
  readonly part: Excel.CustomXmlPart;
  readonly xml: string;
}

async function ourParts(context: Excel.RequestContext): Promise<Part[]> {
  const parts = context.workbook.customXmlParts.getByNamespace(partNamespace);
  parts.load("items/id");
  await context.sync();
  const texts = parts.items.map((part) => ({ part, xml: part.getXml() }));
  await context.sync();
  return texts.map(({ part, xml }) => ({ part, xml: xml.value }));
}

/** Excel takes decoded text, so there is no encoding to declare. */
const withoutDeclaration = (xml: string): string => xml.replace(/^<\?xml[^?]*\?>\s*/, "");

/**
 * The instruments as custom XML parts of the workbook. Parts are never changed in place: setXml deletes and recreates a
 * part, so a failure in between would lose it. Here the new part is added before the old ones are deleted.
 *
 * @param written called after each write
 */
export function excelParts(written: () => void): PartStore {
  return {
    read: () =>
      inExcel(async (context) => (await ourParts(context)).map(({ xml }) => xml), { delayForCellEdit: true }),
    write: async (xml, insteadOf) => {
      await inExcel(
        async (context) => {
          const before = await ourParts(context);
          context.workbook.customXmlParts.add(withoutDeclaration(xml));
          await context.sync();
          for (const old of before) if (insteadOf.includes(old.xml)) old.part.delete();
          await context.sync();
        },
        { delayForCellEdit: true },
      );
      written();
    },
  };
}
