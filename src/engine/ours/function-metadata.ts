/** The parts of Excel's functions.json that calculation and argument help depend on. */
export interface FunctionMetadata {
  readonly functions: readonly DeclaredFunction[];
  /** Errors are passed to parameters of type "any"; otherwise they become the result and the function is not called. */
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
  /** Takes all remaining arguments; only the last parameter may. */
  readonly repeating?: boolean;
}
