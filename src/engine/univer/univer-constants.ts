import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";
import {
  ArrayValueObject,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  NumberValueObject,
  StringValueObject,
  ValueNodeFactory,
  type BaseValueObject,
} from "@univerjs/engine-formula";
import { literalText } from "../../formulas/text-literal.js";
import { isOperator, isSignificant } from "../../formulas/tokens.js";

/**
 * Makes Univer read the constants of formulas as written; call it once. By itself it takes 1.50 and 1E3 for texts,
 * "2026-03-01" and "1,046" for numbers if passed to a function, and splits {"a,b"} in two.
 */
export function readConstantsAsWritten(): void {
  const { prototype } = ValueNodeFactory;
  // It is called with its "this" below.
  // eslint-disable-next-line @typescript-eslint/unbound-method
  const { create } = prototype;
  prototype.create = function (token: string) {
    const node = create.call(this, token);
    const read = constant(token.trim());
    // Calculations change arrays in place, so each gets a new one.
    if (read)
      node.execute = () => {
        node.setValue(read());
      };
    return node;
  };
}

/** @returns undefined for constants that Univer reads correctly */
function constant(token: string): (() => BaseValueObject) | undefined {
  if (isPlain(token)) return () => NumberValueObject.create(Number(token));
  if (/^"(?:[^"]|"")*"$/.test(token)) return () => StringValueObject.create(literalText(token));
  return token.startsWith("{") ? array(token) : undefined;
}

/** Number() also takes "0x10", "" and "Infinity". */
const isPlain = (text: string): boolean =>
  /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i.test(text) && Number.isFinite(Number(text));

function array(token: string): (() => BaseValueObject) | undefined {
  const rows: (() => BaseValueObject)[][] = [[]];
  let sign = 1;
  for (const piece of tokenize(token.slice(1, -1)).filter(isSignificant)) {
    if (isOperator(piece, ";")) rows.push([]);
    else if (isOperator(piece, "-")) sign = -sign;
    else if (!isOperator(piece, ",", "+")) {
      const read = element(piece, sign);
      if (!read) return undefined;
      rows.at(-1)?.push(read);
      sign = 1;
    }
  }
  const columnCount = Math.max(...rows.map(({ length }) => length));
  if (columnCount === 0) return undefined;
  const place = { unitId: "", sheetId: "", row: -1, column: -1 };
  return () =>
    ArrayValueObject.create({
      calculateValueList: rows.map((row) => row.map((read) => read())),
      rowCount: rows.length,
      columnCount,
      ...place,
    });
}

const codes = new Map<string, ErrorType>(Object.values(ErrorType).map((code) => [code, code]));

function element({ type, value }: Token, sign: number): (() => BaseValueObject) | undefined {
  switch (type) {
    case tokenTypes.NUMBER:
      return () => NumberValueObject.create(sign * Number(value));
    case tokenTypes.STRING:
      return () => StringValueObject.create(literalText(value));
    case tokenTypes.BOOLEAN:
      return () => BooleanValueObject.create(value.toUpperCase() === "TRUE");
    case tokenTypes.ERROR: {
      const code = codes.get(value.toUpperCase());
      return code && (() => ErrorValueObject.create(code));
    }
    default:
      return undefined;
  }
}
