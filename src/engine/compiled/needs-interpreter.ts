/** Thrown by a calculation that only the interpreter can do. */
export class NeedsInterpreter extends Error {
  override readonly name = "NeedsInterpreter";
}
