import { Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";

// JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement (GUM).

/**
 * Coverage factor: the expanded uncertainty covers about 95 % of the values that could reasonably be true (GUM 6.3.3).
 */
export const COVERAGE = 2;

/** An input quantity of a measurement model, with its uncertainty. */
export interface Quantity {
  readonly value: number;
  /** Standard uncertainty, in the unit of the value. */
  readonly standardUncertainty: number;
  readonly distribution: "normal" | "rectangular";
}

/** A quantity with a known standard deviation. */
export const normal = (value: number, standardUncertainty: number): Quantity => ({
  value,
  standardUncertainty,
  distribution: "normal",
});

/** A quantity known only to lie within a half-width of the value (GUM 4.3.7). */
export const rectangular = (value: number, halfWidth: number): Quantity => ({
  value,
  standardUncertainty: halfWidth / Math.sqrt(3),
  distribution: "rectangular",
});

/** A quantity read to the nearest division (GUM F.2.2.1). */
export const toNearest = (value: number, division: number): Quantity => rectangular(value, division / 2);

export const exactly = (value: number): Quantity => rectangular(value, 0);

/**
 * A measurement model: a result as a function of its input quantities. The error of a formula itself is one of them, of
 * value 0.
 */
export interface Model<Name extends string = string> {
  readonly of: Readonly<Record<Name, Quantity>>;
  readonly result: (values: Readonly<Record<Name, number>>) => number;
}

/** One component of the uncertainty of a result. */
export interface Component<Name extends string = string> {
  readonly name: Name;
  /** Standard uncertainty of the result due to this component alone, in the unit of the result. */
  readonly standardUncertainty: number;
  /** Share of the variance; the shares add up to 1. Negative if correlation makes this component cancel another. */
  readonly share: number;
}

/** Uncertainty budget of a result; quantities without uncertainty are left out. */
export interface Budget<Name extends string = string> {
  readonly value: number;
  readonly standardUncertainty: number;
  /** With coverage factor 2. */
  readonly expandedUncertainty: number;
  readonly components: readonly Component<Name>[];
}

/** Correlation coefficient of two quantities, −1 to 1, in either order. */
export interface Correlation<Name extends string = string> {
  readonly between: readonly [Name, Name];
  readonly is: number;
}

/**
 * Propagates uncertainties to first order (GUM 5.1.2, equation 10; 5.2.2, equation 13 for correlated quantities).
 *
 * Sensitivities come from the calculation itself: the change of the result when a quantity moves up and down by its
 * standard uncertainty (GUM 5.1.3, note 2).
 *
 * @throws Refusal as the calculation does, and if a quantity can move neither up nor down within the range covered
 */
export function budgetOf<Name extends string>(
  model: Model<Name>,
  correlations: readonly Correlation<Name>[] = [],
): Budget<Name> {
  const names = (Object.keys(model.of) as Name[]).filter((name) => model.of[name].standardUncertainty > 0);
  const values = Object.fromEntries(
    (Object.keys(model.of) as Name[]).map((name) => [name, model.of[name].value]),
  ) as Record<Name, number>;
  const value = model.result(values);
  const contributions = names.map((name) => ({ name, change: contributionOf(model, values, value, name) }));
  const correlation = (a: Name, b: Name): number =>
    a === b ? 1 : (correlations.find(({ between }) => between.includes(a) && between.includes(b))?.is ?? 0);
  const parts = contributions.map((a) => ({
    name: a.name,
    standardUncertainty: Math.abs(a.change),
    variance: contributions.reduce((sum, b) => sum + a.change * b.change * correlation(a.name, b.name), 0),
  }));
  const variance = Math.max(
    0,
    parts.reduce((sum, part) => sum + part.variance, 0),
  );
  const standardUncertainty = Math.sqrt(variance);
  return {
    value,
    standardUncertainty,
    expandedUncertainty: COVERAGE * standardUncertainty,
    components: parts.map(({ name, standardUncertainty, variance: part }) => ({
      name,
      standardUncertainty,
      share: variance > 0 ? part / variance : 0,
    })),
  };
}

/** Reports the components of a budget to a listener and returns the expanded uncertainty. */
export function tellBudget(budget: Budget, unit: string, to: Listener | undefined): number {
  if (to)
    for (const { name, standardUncertainty } of budget.components)
      step(to, name, standardUncertainty, unit, "one standard uncertainty");
  step(
    to,
    "combined standard uncertainty",
    budget.standardUncertainty,
    unit,
    "JCGM 100:2008 (GUM), first order",
  );
  return step(to, "expanded uncertainty", budget.expandedUncertainty, unit, "coverage factor 2");
}

/**
 * Change of the result when a quantity increases by its standard uncertainty. One-sided at the end of the range
 * covered.
 */
function contributionOf<Name extends string>(
  { of, result }: Model<Name>,
  values: Readonly<Record<Name, number>>,
  value: number,
  name: Name,
): number {
  const { standardUncertainty } = of[name];
  const moved = (by: number): number | Refusal => {
    try {
      return result({ ...values, [name]: values[name] + by });
    } catch (error) {
      if (error instanceof Refusal) return error;
      throw error;
    }
  };
  const up = moved(standardUncertainty);
  const down = moved(-standardUncertainty);
  if (typeof up === "number") return typeof down === "number" ? (up - down) / 2 : up - value;
  if (typeof down === "number") return value - down;
  throw up;
}
