import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { validateXML } from "xmllint-wasm";
import { version } from "../../package.json";
import { manifest } from "../../src/build/manifest.js";
import { development, production } from "../../src/build/release.js";
import { officeSchemas } from "../support/tools.js";

const files = [
  "OfficeAppManifestV1_1.xsd",
  "OfficeAppBasicTypesV1_0.xsd",
  "TaskPaneAppVersionOverridesV1_0.xsd",
];

async function complaints(...manifests: readonly string[]): Promise<string[]> {
  const [main, ...others] = await Promise.all(
    files.map(async (fileName) => ({
      fileName,
      contents: await readFile(join(officeSchemas.path ?? "", fileName), "utf8"),
    })),
  );
  if (!main) throw new Error("no schema");
  const { errors } = await validateXML({
    xml: manifests.map((contents, n) => ({ fileName: `${n}.xml`, contents })),
    schema: [main.contents],
    preload: others,
  });
  return errors.map(({ message }) => message);
}

describe.runIf(officeSchemas.present)("the schema of Office manifests", () => {
  const whole = manifest(development, version);

  test("accepts ours", async () => {
    expect(await complaints(whole, manifest(production("https://host.example"), version))).toEqual([]);
  });

  test("refuses another order, a wrong word and a missing part, deep down too", async () => {
    expect(await complaints(whole.replace(/(<ProviderName>.*\n)(.*\n)/, "$2$1"))).not.toEqual([]);
    expect(await complaints(whole.replace('lifetime="long"', 'lifetime="ever"'))).not.toEqual([]);
    expect(await complaints(whole.replace(/<Label resid="Group.Label"\/>/, ""))).not.toEqual([]);
  });
});
