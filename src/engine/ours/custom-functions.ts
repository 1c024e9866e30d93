/** A function as the bundle provides it; functions.json declares what it takes and returns. */
export type AssociatedFunction = (...args: readonly unknown[]) => unknown;

/** The error codes known to Office, by its names for them. */
const errorCodes = {
  invalidValue: "#VALUE!",
  notAvailable: "#N/A",
  divisionByZero: "#DIV/0!",
  invalidNumber: "#NUM!",
  nullReference: "#NULL!",
  invalidName: "#NAME?",
  invalidReference: "#REF!",
} as const;

/** An error thrown, returned or received by a function. */
export class CustomFunctionsError extends Error {
  override readonly name = "CustomFunctions.Error";

  constructor(
    readonly code: string,
    message = "",
  ) {
    super(message);
  }
}

/** Stands in for Office's global `CustomFunctions`, as far as the functions bundle needs it. */
export interface CustomFunctionsGlobal {
  readonly Error: typeof CustomFunctionsError;
  readonly ErrorCode: typeof errorCodes;
  readonly associate: (
    id: string | Readonly<Record<string, AssociatedFunction>>,
    implementation?: AssociatedFunction,
  ) => void;
}

/** The object for the global scope of the bundle, and the functions that the bundle associates, by upper-case id. */
export interface CustomFunctionsHost {
  readonly CustomFunctions: CustomFunctionsGlobal;
  readonly associated: ReadonlyMap<string, AssociatedFunction>;
}

export function createCustomFunctions(): CustomFunctionsHost {
  const associated = new Map<string, AssociatedFunction>();
  const put = (id: string, implementation: AssociatedFunction): void => {
    associated.set(id.toUpperCase(), implementation);
  };
  return {
    associated,
    CustomFunctions: {
      Error: CustomFunctionsError,
      ErrorCode: errorCodes,
      associate(id, implementation) {
        if (typeof id !== "string") for (const [key, value] of Object.entries(id)) put(key, value);
        else if (implementation) put(id, implementation);
      },
    },
  };
}
