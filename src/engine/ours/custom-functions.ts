/** A function as the bundle hands it over; what it takes and gives is for functions.json to say. */
export type AssociatedFunction = (...args: readonly unknown[]) => unknown;

/** The error codes Office knows, under the names it gives them. */
const errorCodes = {
  invalidValue: "#VALUE!",
  notAvailable: "#N/A",
  divisionByZero: "#DIV/0!",
  invalidNumber: "#NUM!",
  nullReference: "#NULL!",
  invalidName: "#NAME?",
  invalidReference: "#REF!",
} as const;

/** What a function throws, returns, or finds among its arguments, in place of a value. */
export class CustomFunctionsError extends Error {
  override readonly name = "CustomFunctions.Error";

  constructor(
    readonly code: string,
    message = "",
  ) {
    super(message);
  }
}

/** Stands in for Office's global `CustomFunctions`, all that the functions bundle needs to load. */
export interface CustomFunctionsGlobal {
  readonly Error: typeof CustomFunctionsError;
  readonly ErrorCode: typeof errorCodes;
  readonly associate: (
    id: string | Readonly<Record<string, AssociatedFunction>>,
    implementation?: AssociatedFunction,
  ) => void;
}

/** The object to put into the global scope of the bundle, and what the bundle then associates, by upper-case id. */
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
