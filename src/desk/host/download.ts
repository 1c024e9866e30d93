/** MIME type of a workbook. */
export const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** Offers a file for saving. */
export function download(name: string, content: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  // The browser has read the content by then.
  setTimeout(() => {
    URL.revokeObjectURL(link.href);
  }, 10_000);
}
