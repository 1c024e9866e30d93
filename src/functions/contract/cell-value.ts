/** Errors that a spreadsheet lets a function return. */
export type ErrorCode = "#VALUE!" | "#N/A" | "#DIV/0!" | "#NUM!" | "#NULL!";

/** An error for one cell. Only #VALUE! and #N/A carry a message as far as the user. */
export class CellError extends Error {
  override readonly name = "CellError";

  constructor(
    readonly code: ErrorCode,
    message = "",
  ) {
    super(message);
  }
}

/**
 * Stands for an empty cell among others of a range that name an instrument or a unit. It is an error, but only in a row that
 * is not blank.
 */
export class Unnamed extends CellError {}

/** What a function may put into a cell; "" is a blank. */
export type Result = number | string | boolean | CellError;

/** What a cell holds, once all the ways to hold it are the same. */
export type CellContent = number | string | boolean | CellError | undefined;

/** Rectangle of raw cells, as a host hands over every argument. */
export type RawCells = readonly (readonly unknown[])[];

const codes: ReadonlySet<string> = new Set<ErrorCode>(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]);

/** Errors come in under codes that cannot go out again, such as #REF! and #NAME?; these go out as #VALUE!. */
function errorCode(code: string): ErrorCode {
  return codes.has(code) ? (code as ErrorCode) : "#VALUE!";
}

/**
 * One cell of an argument. Blank, null, "" and a missing argument are alike, rich values are their basic value, an error
 * of another cell is itself.
 */
export function cellContent(raw: unknown): CellContent {
  if (typeof raw === "number") return Number.isFinite(raw) ? raw : new CellError("#NUM!");
  if (typeof raw === "string") return raw.trim() === "" ? undefined : raw;
  if (typeof raw === "boolean" || raw instanceof Unnamed) return raw;
  return typeof raw === "object" && raw !== null ? objectContent(raw) : undefined;
}

function objectContent(raw: object): CellContent {
  if ("code" in raw && typeof raw.code === "string" && raw.code.startsWith("#"))
    return new CellError(errorCode(raw.code));
  if (!("basicValue" in raw)) return undefined;
  const isError = "type" in raw && raw.type === "Error";
  if (isError) return new CellError(errorCode(String(raw.basicValue)));
  return typeof raw.basicValue === "object" ? undefined : cellContent(raw.basicValue);
}

/** How many cells a range has. */
export interface Shape {
  readonly rows: number;
  readonly columns: number;
}
