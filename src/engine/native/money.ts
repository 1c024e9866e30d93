import { FormulaError } from "../values.js";
import { single } from "./argument.js";
import { number } from "./convert.js";
import { badNumber, divisionByZero, MANY, type NativeFunction, ofArrays } from "./define.js";
import { numbersOf, total } from "./numbers.js";

export const moneyFunctions: readonly NativeFunction[] = [
  ofArrays("NPV", [2, MANY], (given, ...values) => {
    const rate = number(single(given));
    if (rate instanceof FormulaError) return rate;
    if (rate === -1) return divisionByZero;
    const payments = numbersOf(values);
    if (payments instanceof FormulaError) return payments;
    if (payments.length === 0) return badNumber;
    return total(payments.map((payment, i) => payment / (1 + rate) ** (i + 1)));
  }),
];
