import { compiled } from "./compiled/compile.js";
import { type Interpreter, InterpreterMissing } from "./interpreter.js";
import type { CellFunctions } from "./ours/cell-functions.js";
import type { Template } from "./references/templates.js";

/** Calculates formulas: our functions, and an interpreter for what is not compiled, created on demand. */
export class Engine {
  #interpreter: Interpreter | undefined;
  readonly #ready = new Set<Template>();

  /** @param make undefined if there is no interpreter; formulas that need one then throw InterpreterMissing */
  constructor(
    readonly functions: CellFunctions,
    readonly make: (() => Interpreter) | undefined,
  ) {}

  /** @throws InterpreterMissing */
  interpreter(): Interpreter {
    if (!this.make) throw new InterpreterMissing();
    return (this.#interpreter ??= this.make());
  }

  /** @throws InterpreterMissing for a formula that will need an interpreter, if there is none */
  expectReady(template: Template): void {
    const { translation, base, isDynamic: wanders, followsSpill } = template;
    if (this.make || wanders || followsSpill || this.#ready.has(template)) return;
    if (!compiled(translation, base, this.functions, { height: 1, width: 1 })) throw new InterpreterMissing();
    this.#ready.add(template);
  }

  dispose(): void {
    this.#interpreter?.dispose();
  }
}
