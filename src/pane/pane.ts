import type { CellAddress } from "../cells/place.js";
import { WorkbookInstruments } from "./instruments/workbook-instruments.js";
import { Attempts } from "./parts/attempts.js";
import type { CellActions } from "./parts/cell-actions.js";
import { Notices } from "./parts/notices.js";
import { Questions } from "./parts/question.js";
import type { Screen, Section } from "./parts/screen.js";
import { Screens } from "./parts/screens.js";
import { Tasks } from "./parts/tasks.js";
import type { Host } from "./ports.js";
import type { Report } from "./ports/formulas-port.js";
import { Emitter } from "./source.js";
import { ChangesScreen } from "./workbook/changes-screen.js";
import { CopyScreen } from "./workbook/copy-screen.js";
import { Recalculator, type Since } from "./workbook/recalculator.js";
import { reportNotice } from "./workbook/unreached.js";
import { workbookChange } from "./workbook/workbook-change.js";

/** State and services shared by the screens. */
export class Pane implements CellActions {
  /** Something shown in the pane has changed. */
  readonly changed = new Emitter();
  readonly notices = new Notices(this.changed);
  readonly questions = new Questions(this.changed);
  readonly tasks = new Tasks(this.changed);
  readonly screens = new Screens(this.changed, this.questions);
  readonly attempts = new Attempts(this.tasks, this.notices, this.changed);
  readonly recalculator: Recalculator;
  readonly instruments: WorkbookInstruments;

  constructor(readonly host: Host) {
    const { changed, notices, attempts } = this;
    this.recalculator = new Recalculator(host.formulas, host.functions, this.tasks, notices, changed);
    this.instruments = new WorkbookInstruments(host.parts, this.recalculator, notices, attempts, changed);
    this.recalculator.asked.on((since) => void this.#showChanges(since));
  }

  /** Starts with one root screen for each section and follows the workbook from now on. */
  start(roots: Readonly<Record<Section, Screen>>): void {
    this.screens.start(roots);
    this.host.edited.on(() => void this.instruments.look());
    void this.instruments.look().then(() => this.recalculator.find());
  }

  /** Shows a cell to the user. */
  async showCell(cell: CellAddress): Promise<void> {
    await this.attempts.work("Going to the cell", () => this.host.formulas.show(cell));
  }

  /** Saves a file, or shows its text for copying if this host does not let pages save files. */
  saveFile(name: string, text: string, type: string): void {
    if (this.host.files.save(name, text, type) === "shown") this.screens.open(new CopyScreen(name, text));
  }

  /**
   * Reports the result of work on cells.
   *
   * @param what such as "rewritten"
   */
  report(report: Report, what: string): void {
    this.notices.say("cells", reportNotice(report, what));
  }

  /** Shows how changes of the instruments affected the cells. */
  async #showChanges({ names, before }: Since): Promise<void> {
    const { set } = this.instruments;
    const change = await this.attempts.work("Looking at what changed", (work) =>
      workbookChange(this.host, before, set, names, work, set),
    );
    if (change) this.screens.open(new ChangesScreen(this, change), "Workbook");
  }
}
