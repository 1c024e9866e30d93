import { SpelledFunctions, spellings, type Spellings } from "../../formulas/spelling.js";
import type { AssociatedFunction } from "./custom-functions.js";
import type { DirectFunction } from "./direct-function.js";
import type { DeclaredFunction, FunctionMetadata } from "./function-metadata.js";

/** Most arguments that spreadsheets allow in one call. */
const MAX_ARGUMENTS = 255;

/** One of our functions, declared and defined. */
export interface CellFunction extends Spellings {
  readonly declared: DeclaredFunction;
  /** Missing if the bundle does not define what the metadata declares. */
  readonly implementation: AssociatedFunction | DirectFunction | undefined;
  /** How many arguments it needs, and how many it accepts. */
  readonly fewest: number;
  readonly most: number;
  readonly takesErrors: boolean;
}

/** Our functions, found by any spelling a formula may use. */
export class CellFunctions extends SpelledFunctions<CellFunction> {
  /** @param instrumentsInVain names of instruments looked for in vain since its last call */
  constructor(
    metadata: FunctionMetadata,
    associated: ReadonlyMap<string, AssociatedFunction | DirectFunction>,
    namespace: string,
    readonly instrumentsInVain: () => readonly string[] = () => [],
  ) {
    super(
      metadata.functions.map((declared) => ({
        ...spellings(namespace, declared.name),
        declared,
        fewest: declared.parameters.filter(({ optional, repeating }) => !optional && !repeating).length,
        most: declared.parameters.at(-1)?.repeating ? MAX_ARGUMENTS : declared.parameters.length,
        implementation: associated.get(declared.id.toUpperCase()),
        takesErrors: metadata.allowErrorForDataTypeAny ?? false,
      })),
      namespace,
    );
  }
}
