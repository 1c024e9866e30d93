/** The parts of Excel's functions.json that calculation or argument help depends on. */
export interface FunctionMetadata {
  readonly functions: readonly DeclaredFunction[];
  /** Errors may reach parameters of type "any"; otherwise they become the result and the call does not happen. */
  readonly allowErrorForDataTypeAny?: boolean;
}

export interface DeclaredFunction {
  readonly id: string;
  readonly name: string;
  readonly description?: string;
  readonly helpUrl?: string;
  readonly parameters: readonly DeclaredParameter[];
  readonly result?: { readonly type?: string; readonly dimensionality?: string };
}

export interface DeclaredParameter {
  readonly name: string;
  readonly description?: string;
  readonly type?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
  /** Takes all arguments from here on; only the last parameter may. */
  readonly repeating?: boolean;
}
