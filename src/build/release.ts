// Where the add-in is served from, and who it is there.

export interface Release {
  /** Where its files are, without a closing slash. */
  readonly origin: string;
  /** Who the add-in is for Excel. Never changes once people have it: what Excel keeps for it is bound to it. */
  readonly id: string;
  readonly name: string;
  /** Where its page takes office.js from. */
  readonly officeJs: string;
}

const publishedOfficeJs = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

/** Hosts of Microsoft's office.js and of all that it loads: that of its address, and the one it has been moving to. */
export const officeHosts: readonly string[] = [
  new URL(publishedOfficeJs).origin,
  "https://officeapis.public.onecdn.static.microsoft",
];

/**
 * What a contributor runs: an add-in of its own, so that it stands beside the published one instead of replacing it.
 * office.js comes out of node_modules, where it may be read but not be handed on.
 */
export const development: Release = {
  origin: "https://localhost:3000",
  id: "c2776d25-f14d-4ce4-888e-9a15552724dd",
  name: "Gylesheet (development)",
  officeJs: "/office/office.js",
};

/**
 * What people use.
 *
 * @param address where the files of dist/ will stand
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
