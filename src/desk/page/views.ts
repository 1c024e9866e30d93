import { html, nothing, type TemplateResult } from "lit";
import type { Notices } from "../../pane/parts/notices.js";
import type { Questions } from "../../pane/parts/question.js";
import type { Draft } from "../book/drafts.js";
import type { PageTopic } from "./book-notices.js";
import { examples } from "./examples.js";
import type { UnsavedWork } from "./unsaved-work.js";

/** State of the page for its views, and the actions of its buttons. */
export interface PageState {
  readonly book: { readonly name: string } | undefined;
  readonly unsaved: Pick<UnsavedWork, "isSaved" | "left" | "drop">;
  readonly paneShown: boolean;
  /** Description of running work. */
  readonly busy: string | undefined;
  /** Explanation of the selected cell. */
  readonly explanation: string | undefined;
  readonly notices: Pick<Notices<PageTopic>, "view">;
  readonly questions: Questions;
  openFile(file: File): Promise<void>;
  openExample(name: string): Promise<void>;
  openDraft(draft: Draft): Promise<void>;
  save(): Promise<void>;
  showPane(shown: boolean): void;
}

/** Opens a file. The input itself is hidden: users look for a button. */
function chooser(page: PageState, id: string, tone: string): TemplateResult {
  const chosen = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const [file] = input.files ?? [];
    input.value = ""; // lets the same file be chosen again
    if (file) void page.openFile(file);
  };
  return html`<input
      type="file"
      id=${id}
      accept=".xlsx,.xlsm"
      aria-label="Workbook file"
      hidden
      @change=${chosen}
    />
    <button
      class=${tone}
      @click=${() => {
        document.querySelector<HTMLInputElement>(`#${id}`)?.click();
      }}
    >
      Open a file …
    </button>`;
}

/** The top bar: the open file, and its actions. */
export function bar(page: PageState): TemplateResult {
  const { book, paneShown } = page;
  return html`<span class="brand">Gylesheet desk</span> ${
      book
        ? html`<h1 class="name" dir="auto">${book.name}</h1>
            <span class="saved">${page.unsaved.isSaved ? "" : "not saved"}</span>
            <span class="grow"></span>
            ${chooser(page, "open-another", "")}
            <button @click=${() => void page.openExample(examples.starter)}>New</button>
            <button class="primary" @click=${() => void page.save()}>Save as .xlsx</button>
            <button
              class="fold"
              aria-expanded=${String(paneShown)}
              aria-controls="side"
              @click=${() => {
                page.showPane(!paneShown);
              }}
            >
              ${paneShown ? "Hide pane" : "Show pane"}
            </button>`
        : nothing
    }`;
}

export function notices(page: PageState): TemplateResult {
  return html`${page.notices.view()}${page.questions.view()}`;
}

/** Shown in place of the sheet until a workbook is open. */
export function start(page: PageState): TemplateResult {
  const { busy, unsaved } = page;
  return html`<div class="card">
    <h1>Open a workbook</h1>
    <p>
      A spreadsheet with Gylesheet's functions in its cells, in this page. Nothing that you open leaves this
      computer.
    </p>
    ${unsaved.left.map((draft) => leftView(page, draft))}
    <div class="choices">
      <button
        class="primary"
        ?disabled=${busy !== undefined}
        @click=${() => void page.openExample(examples.season)}
      >
        See a season of an invented brewery
      </button>
      <button ?disabled=${busy !== undefined} @click=${() => void page.openExample(examples.fermentation)}>
        See a logged fermentation
      </button>
      ${chooser(page, "open-first", "")}
      <button ?disabled=${busy !== undefined} @click=${() => void page.openExample(examples.starter)}>
        Begin with an empty log
      </button>
    </div>
    <p class="hint">Or drop an .xlsx file anywhere on this page.</p>
    ${busy === undefined ? nothing : html`<p role="status">${busy}</p>`}
  </div>`;
}

function leftView(page: PageState, draft: Draft): TemplateResult {
  const when = new Date(draft.changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
  return html`<div class="left">
    <p><strong dir="auto">${draft.name}</strong> was changed on ${when} and not saved.</p>
    <button class="primary" @click=${() => void page.openDraft(draft)}>Go on with it</button>
    <button class="quiet" @click=${() => void page.unsaved.drop(draft)}>Give it up</button>
  </div>`;
}

/** The status bar: an explanation of the selected cell. */
export function status(page: PageState): TemplateResult {
  if (page.book && page.busy !== undefined) return html`${page.busy}`;
  if (page.explanation !== undefined) return html`<strong>${page.explanation}</strong>`;
  return page.book
    ? html`Gylesheet's functions begin with GYLE: type =GYLE. into a cell, or choose one in the pane. F6 leads
      from the sheet to the pane.`
    : html``;
}
