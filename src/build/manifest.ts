// manifest.xml: everything that Excel knows of the add-in before it loads it.
import { NAMESPACE } from "../functions/contract/function-spec.js";
import type { Release } from "./release.js";
import { xmlElement, plainElement, xmlDocument, type XmlNode } from "./xml.js";

const schemas = "http://schemas.microsoft.com/office";

/** Every size that a ribbon, a list of add-ins or a high-density screen asks for. */
export const iconSizes = [16, 20, 24, 32, 40, 48, 64, 80] as const;

/** Path of an icon, below the origin. */
export const iconPath = (size: number): string => `icons/icon-${size}.png`;

// Requirements, so that the add-in is not offered where it could not work: one page for functions and pane; all error
// codes of the functions bundle; cells that can be recalculated.
const requirements = {
  SharedRuntime: "1.1",
  CustomFunctionsRuntime: "1.3",
  ExcelApi: "1.9",
};

// The one page. Runtime, functions and pane must name the same resource, or Excel opens several pages that share
// nothing.
const PAGE = "Page.Url";

const urls = {
  [PAGE]: "taskpane.html",
  "Functions.Url": "functions.js",
  "Metadata.Url": "functions.json",
  "Help.Url": "help/index.html",
};

const description =
  "Cell functions for brewers: they put hydrometer, refractometer and floating hydrometer readings right, and turn them into gravity, alcohol, attenuation, extract and efficiency.";

const longStrings = {
  "GetStarted.Description": `Type =${NAMESPACE}. in a cell to see the functions, or open Gylesheet on the Home tab to write down what your instruments need corrected.`,
  "Button.Description":
    "Write down what your instruments need corrected, and find the function that answers a question.",
};

/**
 * Converts a version of package.json, three parts and perhaps a suffix after a hyphen, to the four numbers that Excel
 * compares.
 */
export function fourParts(version: string): string {
  const numbers = /^(\d+)\.(\d+)\.(\d+)(?:-|$)/.exec(version)?.slice(1);
  if (numbers === undefined) throw new Error(`The version ${version} of package.json is not three numbers.`);
  return [...numbers, "0"].join(".");
}

/**
 * manifest.xml.
 *
 * @param version as in package.json
 */
export function manifest(release: Release, version: string): string {
  const at = (path: string): string => `${release.origin}/${path}`;
  const shortStrings = {
    Namespace: NAMESPACE,
    "GetStarted.Title": `${release.name} is ready`,
    "Group.Label": release.name,
    "Button.Label": "Instruments",
    "Button.Title": "Instruments and functions",
  };
  return xmlDocument(
    xmlElement(
      "OfficeApp",
      {
        xmlns: `${schemas}/appforoffice/1.1`,
        "xmlns:xsi": "http://www.w3.org/2001/XMLSchema-instance",
        "xmlns:bt": `${schemas}/officeappbasictypes/1.0`,
        "xsi:type": "TaskPaneApp",
      },
      [
        plainElement("Id", release.id),
        plainElement("Version", fourParts(version)),
        plainElement("ProviderName", "Gylesheet contributors"),
        plainElement("DefaultLocale", "en-GB"),
        setting("DisplayName", release.name),
        setting("Description", description),
        setting("IconUrl", at(iconPath(32))),
        setting("HighResolutionIconUrl", at(iconPath(64))),
        setting("SupportUrl", at(urls["Help.Url"])),
        plainElement("Hosts", [xmlElement("Host", { Name: "Workbook" })]),
        plainElement("Requirements", [
          xmlElement(
            "Sets",
            { DefaultMinVersion: "1.1" },
            Object.entries(requirements).map(([Name, MinVersion]) => xmlElement("Set", { Name, MinVersion })),
          ),
        ]),
        plainElement("DefaultSettings", [setting("SourceLocation", at(urls[PAGE]))]),
        plainElement("Permissions", "ReadWriteDocument"),
        xmlElement(
          "VersionOverrides",
          { xmlns: `${schemas}/taskpaneappversionoverrides`, "xsi:type": "VersionOverridesV1_0" },
          [
            plainElement("Hosts", [
              xmlElement("Host", { "xsi:type": "Workbook" }, [runtimes, cellFunctions, ribbon]),
            ]),
            plainElement("Resources", [
              resources(
                "Images",
                "Image",
                iconSizes.map((size) => [`Icon.${size}`, at(iconPath(size))]),
              ),
              resources(
                "Urls",
                "Url",
                Object.entries(urls).map(([id, path]) => [id, at(path)]),
              ),
              resources("ShortStrings", "String", Object.entries(shortStrings)),
              resources("LongStrings", "String", Object.entries(longStrings)),
            ]),
          ],
        ),
      ],
    ),
  );
}

const setting = (name: string, value: string): XmlNode => xmlElement(name, { DefaultValue: value });

const reference = (name: string, resid: string): XmlNode => xmlElement(name, { resid });

const source = (name: string, resid: string): XmlNode =>
  plainElement(name, [reference("SourceLocation", resid)]);

function resources(
  kind: string,
  item: string,
  entries: readonly (readonly [id: string, value: string])[],
): XmlNode {
  return plainElement(
    `bt:${kind}`,
    entries.map(([id, DefaultValue]) => xmlElement(`bt:${item}`, { id, DefaultValue })),
  );
}

// Kept running while the workbook is open, with or without the pane: the functions live in it.
const runtimes = plainElement("Runtimes", [xmlElement("Runtime", { resid: PAGE, lifetime: "long" })]);

const cellFunctions = plainElement("AllFormFactors", [
  xmlElement("ExtensionPoint", { "xsi:type": "CustomFunctions" }, [
    source("Script", "Functions.Url"), // required by the schema; with a shared runtime the page loads it
    source("Page", PAGE),
    source("Metadata", "Metadata.Url"),
    reference("Namespace", "Namespace"),
  ]),
]);

const icon = plainElement(
  "Icon",
  iconSizes.map((size) => xmlElement("bt:Image", { size: String(size), resid: `Icon.${size}` })),
);

const button = xmlElement("Control", { "xsi:type": "Button", id: "Gylesheet.Button" }, [
  reference("Label", "Button.Label"),
  plainElement("Supertip", [
    reference("Title", "Button.Title"),
    reference("Description", "Button.Description"),
  ]),
  icon,
  xmlElement("Action", { "xsi:type": "ShowTaskpane" }, [
    plainElement("TaskpaneId", "Gylesheet.Pane"),
    reference("SourceLocation", PAGE),
  ]),
]);

const ribbon = plainElement("DesktopFormFactor", [
  plainElement("GetStarted", [
    reference("Title", "GetStarted.Title"),
    reference("Description", "GetStarted.Description"),
    reference("LearnMoreUrl", "Help.Url"),
  ]),
  reference("FunctionFile", PAGE),
  xmlElement("ExtensionPoint", { "xsi:type": "PrimaryCommandSurface" }, [
    xmlElement("OfficeTab", { id: "TabHome" }, [
      xmlElement("Group", { id: "Gylesheet.Group" }, [reference("Label", "Group.Label"), icon, button]),
    ]),
  ]),
]);
