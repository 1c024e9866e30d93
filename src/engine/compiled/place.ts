import { Values } from "../values.js";
import { alike, lone, type CompiledStep, type Steps } from "./steps.js";

/** Functions that ask where cells are, not what they hold. */
export const places: ReadonlySet<string> = new Set(["ROW", "COLUMN", "ROWS", "COLUMNS"]);

/** @returns undefined if the argument is not a reference */
export function placeOf(name: string, [reference, ...more]: readonly Steps[]): Steps | undefined {
  if (more.length > 0) return undefined;
  if (!reference && name === "ROW") return alike((_, at) => at.row + 1);
  if (!reference && name === "COLUMN") return alike((_, at) => at.column + 1);
  const area = reference?.area;
  if (!area) return undefined;
  switch (name) {
    case "ROWS":
      return alike((_, at) => size(area(at).top, area(at).bottom));
    case "COLUMNS":
      return alike((_, at) => size(area(at).left, area(at).right));
    case "ROW": {
      const whole: CompiledStep = (_, at) => {
        const { top, bottom } = area(at);
        return new Values(counted(top, bottom).map((row) => [row]));
      };
      return { whole, plain: (cells, at) => lone(whole(cells, at)) };
    }
    default: {
      const whole: CompiledStep = (_, at) => {
        const { left, right } = area(at);
        return new Values([counted(left, right)]);
      };
      return { whole, plain: (cells, at) => lone(whole(cells, at)) };
    }
  }
}

const size = (first: number, last: number): number => last - first + 1;

/** Rows or columns counted from 1. */
const counted = (first: number, last: number): number[] =>
  Array.from({ length: size(first, last) }, (_, i) => first + i + 1);
