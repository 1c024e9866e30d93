export interface Served {
  readonly origin: string;
  readonly manifest: string;
  /** The certificate to trust, if the system has not been told to. */
  readonly authority: string | undefined;
}

/** How to add the add-in to Excel by hand, on every host that supports it. */
export function instructions({ origin, manifest, authority }: Served): string {
  const trust =
    authority === undefined
      ? ""
      : `First let the browser trust the certificate ${authority}: import it in its settings as a certificate authority. Then
${origin}/taskpane.html opens without a warning.

`;
  return `${trust}Excel on the web
  1. Open a workbook in the browser of this computer, as the add-in is served to it alone.
  2. Home > Add-ins > More Add-ins (or More Settings) > My Add-ins > Upload My Add-in.
  3. Choose ${manifest} and upload it.
  It stays until the browser's site data are cleared.

Excel on Windows and Excel on Mac
  Run "npm run excel" on the computer that has Excel: it makes the add-in known to Excel and opens a workbook with it. By hand:
  Windows  1. Share a folder that holds manifest.xml, and note its network path.
           2. File > Options > Trust Center > Trust Center Settings > Trusted Add-in Catalogs: add that path, tick Show in Menu.
           3. Restart Excel. Home > Add-ins > More Add-ins > Shared Folder: add Gylesheet.
  Mac      1. Copy manifest.xml into ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef; make the folder if need be.
           2. Restart Excel. Home > Add-ins: it stands among the developer add-ins.

Excel on iPad and volume-licensed Excel 2021 or older cannot load it.`;
}
