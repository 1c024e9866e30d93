import type { TemplateResult } from "lit";
import { sentenceOf } from "../parts/failure.js";
import type { Temperatures } from "./fermentation-chart.js";
import { textField } from "../parts/fields.js";
import type { Pane } from "../pane.js";
import type { Course } from "../../functions/fermentation-course.js";
import { couldBeCells } from "../functions/written-argument.js";

/** Temperatures to draw with a fermentation. Our functions do not need them, so the user says where they are. */
export class LoggedTemperatures {
  #reference = "";
  #cells: readonly unknown[] = [];
  #problem: string | undefined;
  #asked = 0;
  #given: { readonly of: Course; readonly temperatures: Temperatures } | undefined;

  constructor(private readonly pane: Pane) {}

  /** @returns undefined unless there is one for each reading of the log */
  of(course: Course): Temperatures | undefined {
    if (this.#cells.length === 0 || this.#problem !== undefined) return undefined;
    if (this.#given?.of !== course) {
      const temperatures = course.readings.map(({ row }) => {
        const value = this.#cells[row];
        return typeof value === "number" ? value : undefined;
      });
      this.#given = { of: course, temperatures };
    }
    return this.#given.temperatures;
  }

  view(course: Course): TemplateResult {
    const last = Math.max(0, ...course.readings.map(({ row }) => row));
    const short = this.#cells.length > 0 && this.#cells.length <= last;
    return textField({
      id: "log-temperatures",
      label: "Temperatures to draw with it",
      hint: "Cells beside the log, row for row, such as C2:C900.",
      optional: true,
      value: this.#reference,
      error:
        this.#problem ??
        (short ? `These are ${this.#cells.length} cells; the log has ${last + 1} rows.` : undefined),
      onInput: (value) => {
        this.#reference = value;
      },
      onLeave: () => void this.#read(),
    });
  }

  async #read(): Promise<void> {
    const ticket = (this.#asked += 1);
    const reference = this.#reference.trim();
    let [cells, problem]: [readonly unknown[], string | undefined] = [[], undefined];
    if (reference !== "" && !couldBeCells(reference))
      problem = `"${reference.slice(0, 30)}" is no cells such as C2:C900.`;
    else if (reference !== "")
      try {
        cells = (await this.pane.host.selection.at(reference)).rows.flat();
      } catch (error) {
        problem = sentenceOf(error);
      }
    if (ticket !== this.#asked) return;
    this.#cells = cells;
    this.#problem = problem;
    this.#given = undefined;
    this.pane.changed.emit();
  }
}
