import type { UniverCell } from "../../engine/univer/univer-functions.js";

/** What our functions had to say about errors, by cell: Univer keeps the error alone. */
export class ErrorMessages {
  readonly #messages = new Map<string, string>();

  /** Takes what a call said of a cell; "" is no error. */
  readonly tell = (cell: UniverCell, message: string): void => {
    if (message === "") this.#messages.delete(keyOf(cell));
    else this.#messages.set(keyOf(cell), message);
  };

  /** What was last said of a cell. Whether the cell still shows an error of ours is for the caller to know. */
  at(cell: UniverCell): string | undefined {
    return this.#messages.get(keyOf(cell));
  }

  clear(): void {
    this.#messages.clear();
  }
}

function keyOf({ unit, sheet, row, column }: UniverCell): string {
  return `${unit}\n${sheet}\n${row},${column}`;
}
