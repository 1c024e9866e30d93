import { html, nothing, type TemplateResult } from "lit";
import { textField } from "../parts/fields.js";
import type { Pane } from "../pane.js";
import type { FunctionInfo } from "../ports/functions-port.js";
import type { Screen } from "../parts/screen.js";
import { FunctionScreen } from "./function-screen.js";

const folded = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** Whether every word of the search occurs in the description of a function. */
function matches(info: FunctionInfo, search: string): boolean {
  const { name, topic, question, summary, method, parameters } = info;
  const all = folded(
    [name, topic, question, summary, method, ...parameters.map((each) => each.description)].join(" "),
  );
  return folded(search)
    .split(/\s+/)
    .every((word) => all.includes(word));
}

/** All cell functions, grouped by purpose. */
export class FunctionList implements Screen {
  readonly title = "Functions";
  #search = "";

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    const all = this.pane.host.functions.list;
    const found = all.filter((info) => matches(info, this.#search));
    const topics = [...new Set(found.map(({ topic }) => topic))];
    return html`${textField({
        id: "function-search",
        label: "What do you want to know?",
        value: this.#search,
        onInput: (value) => {
          this.#search = value;
          this.pane.changed.emit();
        },
      })}
      <p class="hint" role="status">
        ${this.#search.trim() === "" ? nothing : found.length === 0 ? "Nothing matches. Try fewer or other words." : `${found.length} of ${all.length}`}
      </p>
      <p>
        <a href="${this.pane.host.help}when.html" target="_blank" rel="noopener"
          >Which function when, through a brew day</a
        >
      </p>
      ${topics.map(
        (topic) =>
          html`<h2>${topic}</h2>
            <ul class="cards">
              ${found.filter((info) => info.topic === topic).map((info) => this.#card(info))}
            </ul>`,
      )}`;
  }

  #card(info: FunctionInfo): TemplateResult {
    return html`<li>
      <button
        class="card"
        @click=${() => {
          this.pane.screens.open(new FunctionScreen(this.pane, info));
        }}
      >
        <span class="card-title">${info.question}</span>
        <span class="card-text"><code>${info.name}</code></span>
        <span class="card-text">${info.summary}</span>
      </button>
    </li>`;
  }
}
