import { html, type TemplateResult } from "lit";
import { kindOf, kinds } from "../instruments/describe.js";
import { readingPage } from "../instruments/reading-page.js";
import type { Pane } from "./pane.js";
import type { Screen } from "./parts/screen.js";

/** About the add-in: what it is, where to find help, and what to be careful about. */
export class AboutScreen implements Screen {
  readonly title = "About Gylesheet";

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    const { version, help } = this.pane.host;
    return html`<p>${version}</p>
      <p>
        Cell functions put readings of hydrometers and refractometers right and turn them into gravity,
        alcohol, attenuation and extract.
      </p>
      <h2>Help</h2>
      <ul>
        <li><a href="${help}index.html" target="_blank" rel="noopener">Help for every function</a></li>
        <li><a href="${help}when.html" target="_blank" rel="noopener">Which function when</a></li>
        ${kinds.map(
          (kind) =>
            html`<li>
              <a href="${help}${readingPage(kind)}" target="_blank" rel="noopener"
                >A good reading: ${kindOf({ kind })}</a
              >
            </li>`,
        )}
      </ul>
      <h2>Where your instruments are</h2>
      <p>
        In this workbook. Whoever opens it with Gylesheet has the same instruments, and every formula means
        the same. Nothing leaves the workbook: Gylesheet asks no server for anything.
      </p>
      <h2>Please be careful</h2>
      <ul class="cautions">
        <li>
          <strong>Bottles.</strong> Nothing here says that beer is finished. Sugar left in a bottle can burst
          it.
        </li>
        <li>
          <strong>Hot wort and glass.</strong> Hot wort scalds, and glass breaks in it. Cool a sample before
          it goes near a hydrometer.
        </li>
        <li>
          <strong>Labels and duty.</strong> Results are for brewing. What a label or a duty return may say is
          decided by the law where you are, and by a licensed laboratory.
        </li>
        <li><strong>Driving.</strong> No number from a spreadsheet says who may drive.</li>
      </ul>`;
  }
}
