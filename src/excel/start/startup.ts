/// <reference types="office-js" />

let isSet = false;

/**
 * Makes Excel load the add-in with this workbook from its next opening on, so that cells get their instruments without
 * anyone opening the pane. Called when instruments have been saved.
 */
export function loadWithWorkbook(): void {
  if (isSet) return;
  isSet = true;
  Office.addin.setStartupBehavior(Office.StartupBehavior.load).catch(() => {
    // If Excel does not support this, the pane passes the instruments when it is opened.
    isSet = false;
  });
}
