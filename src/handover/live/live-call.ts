import { formulaLimit } from "../../cells/limits.js";
import type { Position } from "../../cells/place.js";
import type { Area } from "../../cells/area.js";
import type { Book } from "../../engine/references/book.js";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { translate } from "../../engine/references/translate.js";
import { specNamed } from "../../functions/catalogue.js";
import { cellContent, CellError } from "../../functions/contract/cell-value.js";
import { evaluate } from "../../functions/evaluate.js";
import type { FunctionSpec, Parameter } from "../../functions/contract/function-spec.js";
import { callsOurs } from "../../formulas/formula-text.js";
import {
  parseFormula,
  type ArgumentTokens,
  type OwnCall,
  type OwnFunctions,
} from "../../formulas/own-calls.js";
import { textLiteral } from "../../formulas/text-literal.js";
import type { FormulaToken } from "../../formulas/tokens.js";
import type { InstrumentSet } from "../../instruments/set.js";
import type { CellValue } from "../../workbook/model.js";
import { numberText } from "../fit/expression.js";
import type { Interval } from "../fit/interval.js";
import { balanceFunction } from "./balance-functions.js";
import { measure, type FoldedCall, type LiveFunction, type Measured } from "./live-function.js";
import { errorText, type CoefficientSheet } from "./coefficient-sheet.js";
import { liveText, type Folded, type WrittenInput } from "./live-text.js";
import { givesNoNumber, NotLive } from "./not-live.js";
import { smoothFunction } from "./smooth-functions.js";
import { constantOf, isOneCell, qualifiedFrom } from "./written-call.js";

/** A formula without calls of ours. */
export interface LiveFormula {
  /** As files store it. */
  readonly text: string;
  /** Each replaced call, and its largest error. */
  readonly parts: readonly LivePart[];
}

export interface LivePart {
  readonly call: FoldedCall;
  readonly live: LiveFunction;
  readonly measured: Measured;
}

/** The workbook around the formulas. */
export interface BookAround {
  readonly book: Book;
  readonly functions: CellFunctions;
  readonly own: OwnFunctions;
  readonly instruments: InstrumentSet;
  readonly valueAt: (sheet: number, row: number, column: number) => CellValue;
}

/** Checked for every call: an inner call is written out many times in an outer one, and its length would explode. */
function fitting(text: string): string {
  if (text.length <= formulaLimit) return text;
  throw new NotLive(`the formula would have more than the ${formulaLimit} characters that programs take`);
}

/** Replaces all our calls in formulas, and reuses results for cells with the same call. */
export class LiveCalls {
  readonly #known = new Map<string, LivePart | NotLive>();

  constructor(
    readonly around: BookAround,
    readonly sheet: CoefficientSheet,
  ) {}

  /**
   * @param text of a formula as stored in the file, for one cell
   * @throws NotLive with the reason
   */
  of(text: string, at: Position): LiveFormula {
    const { tokens, calls } = parseFormula(text, this.around.own);
    const parts: LivePart[] = [];
    /** Replaced calls by the index of their first piece: where they end, and their replacement. */
    const replaced = new Map<number, { readonly last: number; readonly text: string }>();
    const render = (from: number, end: number): string => {
      let out = "";
      for (let i = from; i < end;) {
        const call = replaced.get(i);
        if (call) out += call.text;
        else out += textBetween(text, tokens, i);
        i = call ? call.last + 1 : i + 1;
      }
      return out.trim();
    };
    for (const call of calls) {
      const made = this.#call(call, at, tokens, render);
      if (typeof made !== "string") parts.push(made.part);
      const first = qualifiedFrom(tokens, call.first);
      replaced.set(first, { last: call.last, text: typeof made === "string" ? made : made.text });
    }
    const live = render(0, tokens.length);
    if (calls.length === 0 || callsOurs(live, this.around.functions))
      throw new NotLive("it calls a function that is not there");
    return { text: fitting(live), parts };
  }

  #call(
    { function: { id }, args }: OwnCall,
    at: Position,
    solid: readonly FormulaToken[],
    render: (from: number, end: number) => string,
  ): { readonly text: string; readonly part: LivePart } | string {
    const spec = specNamed(id);
    const constants: Record<string, string | number | undefined> = {};
    const written = new Map<string, WrittenInput>();
    const folded: Folded[] = [];
    const lists: Area[] = [];
    for (const [i, parameter] of spec.parameters.entries()) {
      const pieceList = args[i] ?? [];
      const literal = constantOf(pieceList);
      if (literal) constants[parameter.name] = literal.value;
      else {
        const start = solid.indexOf(pieceList[0] as FormulaToken);
        const own = render(start, start + pieceList.length);
        const areas = translate(own, at, this.around.book, this.around.functions).references;
        if (isWord(parameter)) {
          const { value, literal: says } = this.#word(pieceList, areas);
          constants[parameter.name] = value;
          folded.push({ cell: own, literal: says });
        } else {
          const number = this.#number(own, pieceList, areas, spec, parameter);
          written.set(parameter.name, { text: number, isCell: isCell(pieceList, areas) });
          if (spec.lists?.includes(parameter.name)) lists.push(...areas);
        }
      }
    }
    if (lists.some((list) => !isAlike(list, lists[0]))) throw new NotLive("its lists differ in shape");
    if (lists.some((list) => goesDown(list) && list.right > list.left))
      throw new NotLive("its lists are more than one column or row");
    const inputs = [...written.keys()];
    if (inputs.length === 0) return constantResult(spec, constants, this.around.instruments, folded);
    const call: FoldedCall = {
      name: id,
      parameters: spec.parameters.map(({ name }) => name),
      constants,
      inputs,
      instruments: this.around.instruments,
    };
    const part = this.#part(call);
    const texts = part.live.inputs.map(
      ({ parameter }) => written.get(parameter) ?? { text: "", isCell: false },
    );
    const places = this.sheet.places(lists.some(goesDown));
    return { text: fitting(liveText(part.live, texts, folded, places)), part };
  }

  /** Present content of a cell that holds a word or the name of an instrument. */
  #word(argument: ArgumentTokens, areas: readonly (Area & { readonly sheet: number })[]) {
    const [area] = areas;
    if (argument.length !== 1 || !area || areas.length > 1 || !isOneCell(area))
      throw new NotLive("a word or an instrument's name in it is worked out");
    const content = cellContent(rawOf(this.around.valueAt(area.sheet, area.top, area.left)));
    if (content instanceof CellError || typeof content === "boolean")
      throw new NotLive("the cell that should name an instrument or a word does not");
    const isEmpty = content === undefined || content === 0;
    return {
      value: isEmpty ? undefined : content,
      literal: isEmpty ? '""' : textLiteral(String(content).trim()),
    };
  }

  #number(
    text: string,
    argument: ArgumentTokens,
    areas: readonly (Area & { readonly sheet: number })[],
    spec: FunctionSpec,
    { name }: Parameter,
  ): string {
    const isList = spec.lists?.includes(name) ?? false;
    if (!isList && argument.length === 1 && areas.some((area) => !isOneCell(area)))
      throw new NotLive("it takes a whole range at once");
    if (isList && (argument.length !== 1 || areas.length !== 1))
      throw new NotLive("its list is worked out, or not in one piece");
    return argument.length === 1 || /^(?:IF|NA)\(/.test(text) ? text : `(${text})`;
  }

  #part(call: FoldedCall): LivePart {
    const key = JSON.stringify([call.name, call.constants, call.inputs]);
    let found = this.#known.get(key);
    if (!found) {
      found = withoutStacks(() => made(call));
      this.#known.set(key, found);
      if (!(found instanceof NotLive)) this.#head(found);
    }
    if (found instanceof NotLive) throw found;
    return found;
  }

  /** The heading of a function on the sheet of coefficients. */
  #head({ call, live, measured }: LivePart): void {
    this.sheet.head(callText(call), [
      ["Range", live.inputs.map(({ parameter }, i) => rangeText(parameter, measured.ranges[i])).join(", ")],
      ["Worst error", `${errorText(measured.worst)} ${live.unit}, at ${measured.both} places`],
      ["Source", `fitted to the function ${call.name} of the Gylesheet add-in`],
    ]);
  }
}

function made(call: FoldedCall): LivePart | NotLive {
  try {
    const live = smoothFunction(call) ?? balanceFunction(call);
    if (!live) return new NotLive("it is no smooth function of a few cells");
    const measured = measure(call, live);
    if (measured.both === 0) throw givesNoNumber();
    if (measured.worst > live.tolerance)
      return new NotLive(`the nearest formula is off by ${measured.worst.toPrecision(2)} ${live.unit}`);
    return { call, live, measured };
  } catch (error) {
    if (error instanceof NotLive) return error;
    throw error;
  }
}

/**
 * The domain of a function is found by trying, so it refuses a hundred thousand times. Recording stack traces would
 * take longer than everything else, and nobody reads them.
 */
function withoutStacks<T>(work: () => T): T {
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return work();
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}

/** "HYDROMETER(reading, temperature, "Starting glass")" */
function callText({ name, parameters, constants, inputs }: FoldedCall): string {
  const args = parameters.map((parameter) => {
    const constant = constants[parameter];
    if (inputs.includes(parameter)) return parameter;
    return typeof constant === "string" ? textLiteral(constant) : String(constant ?? "");
  });
  return `${name}(${args.join(", ").replace(/[ ,]+$/, "")})`;
}

const rangeText = (parameter: string, range: Interval | undefined): string =>
  range ? `${parameter} ${shown(range.min)} to ${shown(range.max)}` : parameter;

const shown = (value: number): number => Number(value.toPrecision(6));

const goesDown = ({ top, bottom }: Area): boolean => bottom > top;

const isCell = (argument: ArgumentTokens, areas: readonly Area[]): boolean =>
  argument.length === 1 && areas.length === 1 && areas.every(isOneCell);

const isWord = ({ namesInstrument, choices }: Parameter): boolean => namesInstrument || choices.length > 0;

const isAlike = (a: Area, b: Area | undefined): boolean =>
  b !== undefined && a.bottom - a.top === b.bottom - b.top && a.right - a.left === b.right - b.left;

const rawOf = (value: CellValue): unknown =>
  typeof value === "object" && value !== null ? { type: "Error", basicValue: value.error } : value;

/** A call that reads no cells becomes its result. */
function constantResult(
  { name, parameters }: FunctionSpec,
  constants: FoldedCall["constants"],
  instruments: InstrumentSet,
  folded: readonly Folded[],
): string {
  const results = evaluate(
    name,
    parameters.map((parameter) => constants[parameter.name]),
    instruments,
  );
  const [[result] = []] = results;
  if (results.length !== 1 || results[0]?.length !== 1 || typeof result !== "number" || folded.length > 0)
    throw new NotLive("it takes no numbers from cells");
  return numberText(result);
}

/** A piece and the white space after it. */
function textBetween(text: string, solid: readonly FormulaToken[], i: number): string {
  return text.slice(solid[i]?.from ?? 0, solid[i + 1]?.from ?? text.length);
}
