// The pane's bundle, loaded by the page after office.js and the functions.
/// <reference types="office-js" />

void Office.onReady(() => {
  const pane = document.getElementById("pane");
  if (pane) pane.textContent = "Gylesheet is ready: type =GYLE. in a cell.";
});
