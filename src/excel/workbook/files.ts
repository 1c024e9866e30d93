/// <reference types="office-js" />
import type { Files } from "../../pane/ports.js";

/**
 * In Excel on the web and on Windows a page saves files as in any browser. The web views on Mac and iPad then do
 * nothing and report nothing (office-js issues 503, 2700 and 4681), so it is not tried there.
 */
const canSave = (): boolean => {
  const { platform } = Office.context as Partial<Office.Context>;
  return platform !== Office.PlatformType.Mac && platform !== Office.PlatformType.iOS;
};

/** Saves files as any web page does. */
export const pageFiles: Files = {
  save: (name, text, type) => {
    if (!canSave()) return "shown";
    const address = URL.createObjectURL(new Blob([text], { type }));
    const link = document.createElement("a");
    link.href = address;
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    // Not immediately: a web view may start reading only after this turn of the event loop.
    setTimeout(() => {
      URL.revokeObjectURL(address);
    }, 60_000);
    return "saved";
  },
};
