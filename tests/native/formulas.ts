import type { Dice } from "../fuzz/dice.js";
import { asInFile, signatures } from "./signatures.js";

const literals = {
  n: ["0", "1", "-2", "3.5", "1.046", "0.1", "100", "1e3", "-0.5", "45000", "2.675"],
  t: ['""', '"a"', '"Pale"', '"stout ale"', '"3"', '"x y  z"', '"TRUE"'],
  x: [
    "#N/A",
    "#DIV/0!",
    "#VALUE!",
    '""',
    '"a"',
    "TRUE",
    "FALSE",
    "0",
    "2",
    '"2"',
    "#NUM!",
    "INDEX(Data!A2:A3,9)",
  ],
  C: [
    '"pale"',
    '">1"',
    '"<=3"',
    "2",
    '"<>2"',
    '"p*"',
    '"="',
    '"<>"',
    '""',
    "TRUE",
    '"=a"',
    '">=b"',
    "Data!B2",
    "Data!A6",
  ],
} as const;

/** Cells of the sheet "Data", by column: numbers, texts, truths and errors, days, values of ours, a mixture, sorted ones. */
const columns = { n: "AAAAEFH", t: "BBBF", b: "CCF", x: "ABCDEFG", d: "D" } as const;

const LETTERS = "ABCDEFGH".split("");

function columnsOf(kind: string): readonly string[] {
  return (kind in columns ? columns[kind as keyof typeof columns] : columns.x).split("");
}

const LAST_ROW = 9;

/** Random native formulas over the cells of the sheet "Data". */
export class Formulas {
  constructor(readonly dice: Dice) {}

  /** A formula of operators and functions, so many deep. */
  any(depth: number): string {
    const { dice } = this;
    const kind = dice.pick(["n", "t", "b", "x", "operator", "function", "function", "function"]);
    if (kind === "operator" || depth === 0) return this.operator(depth);
    return kind === "function"
      ? this.call(dice.pick([...signatures.keys()]), depth)
      : this.value(kind, depth);
  }

  call(name: string, depth: number): string {
    const args: string[] = [];
    const words = (signatures.get(name) ?? "").split(" ").filter(Boolean);
    for (const word of words) {
      if (word.startsWith("?") && this.dice.chance(0.5)) break;
      const kind = word.replace(/^\?/, "").replace(/\*$/, "");
      const times = word.endsWith("*") ? this.dice.below(3) : 1;
      for (let i = 0; i < times; i++) args.push(this.argument(kind, depth - 1));
    }
    if (args.length === 0 && words.length > 0 && words.every((word) => word.endsWith("*")))
      args.push(this.argument("X", depth - 1));
    return `${asInFile(name)}(${args.join(",")})`;
  }

  operator(depth: number): string {
    const { dice } = this;
    const side = (): string => this.value(dice.pick(["n", "n", "t", "b", "x", "d"]), depth - 1);
    const kind = dice.below(10);
    if (kind === 0) return `-${this.value(dice.pick(["n", "x", "t"]), 0)}`;
    if (kind === 1) return `(${side()})%`;
    const operator = dice.pick(["+", "-", "*", "/", "^", "&", "=", "<>", "<", ">", "<=", ">="]);
    return `(${side()}${operator}${side()})`;
  }

  argument(kind: string, depth: number): string {
    const { dice } = this;
    if (kind.startsWith("=")) return kind.slice(1);
    if (kind.startsWith('"')) return `"${dice.pick(kind.slice(1, -1).split("|"))}"`;
    switch (kind) {
      case "N":
        return this.range(dice.pick(["A", "A", "H", "E", "F"]), 2, LAST_ROW);
      case "X":
        return dice.chance(0.15)
          ? dice.pick(["{1,2;3,4}", '{"a",1,TRUE}', "{5}"])
          : this.range(dice.pick(LETTERS), 2, dice.pick([4, LAST_ROW, LAST_ROW]));
      case "R":
        return this.range(dice.pick(LETTERS), 2, LAST_ROW);
      case "D":
        return this.cell("d");
      case "L":
        return "Data!A2:A9";
      case "B":
        return dice.pick(["Data!H2:H9>3", 'Data!B2:B9="pale"', "Data!H2:H9>100"]);
      case "S":
        return "Data!H2:H9";
      case "T":
        return "Data!H2:J9";
      case "H":
        return "{1,2,3;10,20,30}";
      case "C":
        return dice.pick(literals.C);
      case "k":
        return dice.pick(["1", "2", "3", "1", "2", "0", "2.7", "Data!H3", "-1"]);
      case "i":
        return dice.pick(["5", "12", "7", "-3", "30", "Data!H5", "2.5"]);
      case "p":
        return dice.pick(["0.25", "0.5", "0.9", "0.05", "0", "1", "1.5"]);
      default:
        return this.value(kind, depth);
    }
  }

  /** Text, number, truth, day or anything, now and then of the wrong kind. */
  value(kind: string, depth: number): string {
    const { dice } = this;
    if (dice.chance(0.07)) return dice.pick(literals.x);
    if (depth > 0 && dice.chance(0.45))
      return dice.chance(0.4) ? this.operator(depth) : this.call(dice.pick([...signatures.keys()]), depth);
    if (kind === "b" && dice.chance(0.7))
      return dice.pick(["TRUE", "FALSE", `${this.cell("n")}>1`, `${this.cell("x")}=${this.cell("x")}`]);
    const own = literals[kind as keyof typeof literals] as readonly string[] | undefined;
    return own && dice.chance(0.35) ? dice.pick(own) : this.cell(kind);
  }

  cell(kind: string): string {
    const { dice } = this;
    const letters = columnsOf(kind);
    return `Data!${dice.pick(letters)}${2 + dice.below(LAST_ROW - 1)}`;
  }

  range(column: string, top: number, bottom: number): string {
    return `Data!${column}${top}:${column}${bottom}`;
  }
}
