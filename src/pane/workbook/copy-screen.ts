import { html, type TemplateResult } from "lit";
import type { Screen } from "../parts/screen.js";

/** The text of a file, if this host does not let pages save files. */
export class CopyScreen implements Screen {
  constructor(
    readonly title: string,
    private readonly text: string,
  ) {}

  view(): TemplateResult {
    const select = (event: Event): void => {
      (event.target as HTMLTextAreaElement).select();
    };
    return html`<div class="field">
      <label for="copy-text">Copy this into a file</label>
      <textarea
        id="copy-text"
        readonly
        rows="16"
        aria-describedby="copy-hint"
        .value=${this.text}
        @focus=${select}
      ></textarea>
      <p class="hint" id="copy-hint">
        This version of Excel cannot save files from a pane. Copy the text, paste it into an empty text file,
        and name that file ${this.title}.
      </p>
    </div>`;
  }
}
