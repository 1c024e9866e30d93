/** Errors that a spreadsheet lets a function return. */
export type ErrorCode = "#VALUE!" | "#N/A" | "#DIV/0!" | "#NUM!" | "#NULL!";

/** An error for one cell. Only #VALUE! and #N/A show their message to the user. */
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
 * Marks an empty cell in a range whose other cells name an instrument or a unit. It is an error, but only in a row that
 * is not blank.
 */
export class Unnamed extends CellError {}

/** Result for one cell; "" is a blank. */
export type Result = number | string | boolean | CellError;

/** Content of a cell, independent of how the host represents it. */
export type CellContent = number | string | boolean | CellError | undefined;

/** Rectangle of raw cells; hosts pass every argument like this. */
export type RawCells = readonly (readonly unknown[])[];

const codes: ReadonlySet<string> = new Set<ErrorCode>(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]);

/** Some error codes, such as #REF! and #NAME?, cannot be returned; they become #VALUE!. */
function errorCode(code: string): ErrorCode {
  return codes.has(code) ? (code as ErrorCode) : "#VALUE!";
}

/**
 * Normalises one cell of an argument. Blank, null, "" and a missing argument are all undefined, a rich value is its
 * basic value, and an error of another cell is kept.
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

/** Size of a range in cells. */
export interface Shape {
  readonly rows: number;
  readonly columns: number;
}
