import { compiled } from "./compiled/compile.js";
import { type Interpreter, InterpreterMissing } from "./interpreter.js";
import type { CellFunctions } from "./ours/cell-functions.js";
import type { Template } from "./references/templates.js";

/** What calculates formulas: our functions, and an interpreter for what is not compiled, made when it is asked for. */
export class Engine {
  #interpreter: Interpreter | undefined;
  readonly #ready = new Set<Template>();

  /** @param make undefined where none is at hand: what needs one ends with InterpreterMissing */
  constructor(
    readonly functions: CellFunctions,
    readonly make: (() => Interpreter) | undefined,
  ) {}

  /** @throws InterpreterMissing */
  interpreter(): Interpreter {
    if (!this.make) throw new InterpreterMissing();
    return (this.#interpreter ??= this.make());
  }

  /** @throws InterpreterMissing for a formula that is going to need one, where none is at hand */
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
