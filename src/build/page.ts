// The page that Excel keeps open for the add-in: its functions run in it, and the task pane shows it.
import { officeHosts, type Release } from "./release.js";

/**
 * Content security policy of the page.
 *
 * office.js loads more scripts from its own host and, on a web host unknown to Microsoft, a frame in which it asks the
 * user. It would also send telemetry to Microsoft: that is blocked, so nothing leaves the page.
 */
function policy({ officeJs }: Release): string {
  const office = officeJs.startsWith("https:") ? officeHosts : [];
  return [
    "default-src 'none'",
    `script-src ${["'self'", ...office].join(" ")}`,
    "style-src 'self'",
    "img-src 'self' data:",
    `frame-src ${office.length > 0 ? office.join(" ") : "'self'"}`,
    "worker-src 'self'",
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

/**
 * taskpane.html. Its scripts are classic and blocking: Excel calls functions as soon as the page is there, and those
 * not yet associated by then fail. office.js comes first, since both others need it.
 */
export function taskPanePage(release: Release): string {
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${policy(release)}" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Gylesheet</title>
    <link rel="stylesheet" href="pane.css" />
    <script src="${release.officeJs}"></script>
    <script src="functions.js"></script>
  </head>
  <body class="in-excel">
    <noscript>Gylesheet needs JavaScript, which is switched off here.</noscript>
    <div id="pane"><main>Gylesheet is starting…</main></div>
    <script src="pane.js"></script>
  </body>
</html>
`;
}
