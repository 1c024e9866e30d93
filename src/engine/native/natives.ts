import { arithmeticFunctions } from "./arithmetic.js";
import { arrayFunctions } from "./arrays.js";
import { criteriaFunctions } from "./criteria.js";
import { dateFunctions } from "./dates.js";
import type { NativeFunction } from "./define.js";
import { informationFunctions } from "./information.js";
import { logicalFunctions } from "./logical.js";
import { lookupFunctions } from "./lookup.js";
import { moneyFunctions } from "./money.js";
import { numberFormatFunctions } from "./number-format.js";
import { operators } from "./operators.js";
import { pairFunctions } from "./pairs.js";
import { roundingFunctions } from "./rounding.js";
import { statisticalFunctions } from "./statistics.js";
import { sumFunctions } from "./sums.js";
import { textFunctions } from "./texts.js";
import { unitFunctions } from "./units.js";
import { workdayFunctions } from "./workdays.js";

/** Operators and functions of spreadsheets, calculated as in Excel; they replace the interpreter's own. */
export const natives: readonly NativeFunction[] = [
  ...operators,
  ...logicalFunctions,
  ...informationFunctions,
  ...arithmeticFunctions,
  ...roundingFunctions,
  ...sumFunctions,
  ...statisticalFunctions,
  ...pairFunctions,
  ...criteriaFunctions,
  ...lookupFunctions,
  ...textFunctions,
  ...dateFunctions,
  ...workdayFunctions,
  ...unitFunctions,
  ...numberFormatFunctions,
  ...moneyFunctions,
  ...arrayFunctions,
];
