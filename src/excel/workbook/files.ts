/// <reference types="office-js" />
import type { Files } from "../../pane/ports.js";

/**
 * In Excel on the web and on Windows a page saves files as in any browser. The web view on a Mac and an iPad does nothing
 * at all then, and reports nothing either (office-js issues 503, 2700 and 4681), so it is not tried there.
 */
const canSave = (): boolean => {
  const { platform } = Office.context as Partial<Office.Context>;
  return platform !== Office.PlatformType.Mac && platform !== Office.PlatformType.iOS;
};

/** Files as a page saves them. */
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
    // Not at once: a web view may begin to read only after this turn.
    setTimeout(() => {
      URL.revokeObjectURL(address);
    }, 60_000);
    return "saved";
  },
};
