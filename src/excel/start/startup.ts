/// <reference types="office-js" />

let isSet = false;

/**
 * From the next opening of this workbook on, Excel loads the add-in with it, so that the cells find their instruments
 * without anyone opening the pane. Called when instruments have been saved.
 */
export function loadWithWorkbook(): void {
  if (isSet) return;
  isSet = true;
  Office.addin.setStartupBehavior(Office.StartupBehavior.load).catch(() => {
    // Where Excel does not offer this, the pane brings the instruments when it is opened.
    isSet = false;
  });
}
