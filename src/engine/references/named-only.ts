import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import { bare, callAround } from "./calls-in-tokens.js";

const names = (list: string): ReadonlySet<string> => new Set(list.split(/\s+/));

/** Functions that ask where cells are or what formula they have, not what they hold. */
const askForPlace = names("AREAS COLUMN COLUMNS FORMULATEXT ISFORMULA ISREF ROW ROWS SHEET SHEETS");
/** What CELL can ask for besides "contents" and "type". */
const placeOfCell = names("address col color filename format parentheses prefix protect row width");

/** Whether the reference at a place is the whole of an argument that names cells without reading them. */
export function isNamedOnly(tokens: readonly Token[], place: number): boolean {
  const around = callAround(tokens, place);
  if (!around) return false;
  const { call, arg } = around;
  if (bare(tokens.slice(arg.start, arg.end)).length !== 1) return false;
  if (askForPlace.has(call.name)) return true;
  const [about] = bare(tokens.slice(call.args[0]?.start, call.args[0]?.end));
  return (
    call.name === "CELL" &&
    arg !== call.args[0] &&
    about?.type === tokenTypes.STRING &&
    placeOfCell.has(literalText(about.value).toLowerCase())
  );
}
