// Where the add-in is served from, and its identity there.

export interface Release {
  /** Origin of its files, without a closing slash. */
  readonly origin: string;
  /**
   * Identity of the add-in for Excel. Never changes once people have it: Excel's data for the add-in are bound to it.
   */
  readonly id: string;
  readonly name: string;
  /** Where its page loads office.js from. */
  readonly officeJs: string;
}

const publishedOfficeJs = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

/** Hosts of Microsoft's office.js and everything that it loads: that of its address, and the one it is moving to. */
export const officeHosts: readonly string[] = [
  new URL(publishedOfficeJs).origin,
  "https://officeapis.public.onecdn.static.microsoft",
];

/**
 * For contributors: an add-in with its own id, so that it can be installed beside the published one. office.js comes
 * from node_modules, since its licence allows reading but not redistributing it.
 */
export const development: Release = {
  origin: "https://localhost:3000",
  id: "c2776d25-f14d-4ce4-888e-9a15552724dd",
  name: "Gylesheet (development)",
  officeJs: "/office/office.js",
};

/**
 * For users.
 *
 * @param address where the files of dist/ will be
 * @throws a sentence for an address that Excel would refuse
 */
export function production(address: string): Release {
  return {
    origin: checked(address),
    id: "065e31c6-551d-4b92-b8e8-1a080b2fae21",
    name: "Gylesheet",
    officeJs: publishedOfficeJs,
  };
}

function checked(address: string): string {
  const url = URL.canParse(address) ? new URL(address) : undefined;
  const allowed =
    "It takes the https address of a folder, such as https://host.example or https://host.example/gylesheet.";
  if (url === undefined) throw new Error(`--origin ${address} is no address. ${allowed}`);
  if (url.protocol !== "https:")
    throw new Error(`--origin ${address} is not https, and Excel loads nothing else. ${allowed}`);
  if (url.search !== "" || url.hash !== "" || url.username !== "" || url.password !== "")
    throw new Error(`--origin ${address} says more than where a folder is. ${allowed}`);
  return url.href.replace(/\/+$/, "");
}
