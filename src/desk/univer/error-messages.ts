import type { UniverCell } from "../../engine/univer/univer-functions.js";

/** Messages of our functions about errors, by cell: Univer stores only the error. */
export class ErrorMessages {
  readonly #messages = new Map<string, string>();

  /** Records the message of a call for a cell; "" means no error. */
  readonly tell = (cell: UniverCell, message: string): void => {
    if (message === "") this.#messages.delete(keyOf(cell));
    else this.#messages.set(keyOf(cell), message);
  };

  /** Last message for a cell. The caller must know whether the cell still shows an error of ours. */
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
