import { describe, expect, test } from "vitest";
import { alcoholByVolume, methods } from "../../../src/core/beer/alcohol-methods.js";
import {
  abvModel,
  attenuationModel,
  attenuations,
  MEAN_OF_BEERS,
  yieldScatter,
} from "../../../src/core/uncertainty/alcohol-uncertainty.js";
import { extractOfGravity as P, gravityOfExtract, gravitySlope } from "../../../src/core/liquid/gravity.js";
import {
  correctionHalfWidth,
  hydrometerModel,
} from "../../../src/core/uncertainty/hydrometer-uncertainty.js";
import { extractByHydrometer, plainHydrometer } from "../../../src/core/instrument/hydrometer.js";
import {
  factorAsUsual,
  refractometerModel,
  UNKNOWN_FACTOR_HALF_WIDTH,
} from "../../../src/core/uncertainty/refractometer-uncertainty.js";
import { plainRefractometer } from "../../../src/core/instrument/refractometer.js";
import {
  scaleAccuracy,
  plainHydrometerAccuracy,
  plainRefractometerAccuracy,
} from "../../../src/core/uncertainty/reading-uncertainty.js";
import { budgetOf, type Model, type Quantity } from "../../../src/core/uncertainty/uncertainty.js";
import { deviation, figure, mean, reference, worst } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";
import { beer, glass, prism } from "../../support/uncertain.js";

describe("a hydrometer", () => {
  test("has every printed cell of the temperature table within what the correction may be off", () => {
    const rows = reference("hydrometer-temp-brix20-transcribed");
    const spindle = { ...plainHydrometer, scale: "BX" } as const;
    const cells = rows.flatMap((row) =>
      Object.keys(row)
        .filter((column) => /^bx\d+$/.test(column))
        .map((column) => [Number(column.slice(2)), figure(row, "t_C"), figure(row, column)] as const),
    );
    expect(cells.length).toBe(300);
    const over = ([bx, tC, printed]: (typeof cells)[number]): number =>
      Math.max(
        0,
        Math.abs(extractByHydrometer(bx, tC, spindle) - bx - printed) - correctionHalfWidth(tC) - 0.0005,
      );
    expect(worst(cells, over).by).toBe(0); // 0.0005: the notes give these figures to their last digit
  });

  test("is surer with finer divisions, a better thermometer, and near the temperature of its scale", () => {
    const sure = (division: number, temperatureWithin: number, tC: number): number =>
      budgetOf(
        hydrometerModel(
          {
            reading: 1.046,
            tC,
            hydrometer: plainHydrometer,
            accuracy: { division, maximumError: division },
            temperatureHalfWidth: temperatureWithin,
          },
          "SG",
        ),
      ).expandedUncertainty;
    expect(sure(0.0005, 1, 27)).toBeLessThan(sure(0.001, 1, 27));
    expect(sure(0.001, 0.2, 27)).toBeLessThan(sure(0.001, 1, 27));
    expect(sure(0.001, 1, 20)).toBeLessThan(sure(0.001, 1, 50));
  });

  test("is as sure in °P as in SG", () => {
    const [sg, plato] = [budgetOf(glass(1.046, 27)), budgetOf(glass(1.046, 27, "P"))];
    expect(plato.expandedUncertainty * gravitySlope(plato.value)).toBeCloseTo(sg.expandedUncertainty, 6);
    expect(plato.components.map(({ share }) => share)).toEqual(
      sg.components.map(({ share }) => expect.closeTo(share, 2) as number),
    );
  });

  test("whose maker promises something is taken at that, and otherwise at one division", () => {
    expect(scaleAccuracy(0.001, 0.0005)).toEqual({ division: 0.001, maximumError: 0.0005 });
    expect(scaleAccuracy(0.002, undefined)).toEqual({ division: 0.002, maximumError: 0.002 });
    expect(scaleAccuracy(undefined, 0.1)).toEqual({ division: 0.1, maximumError: 0.1 });
    expect(scaleAccuracy(undefined, undefined)).toBeUndefined();
  });

  test("with a thermometer that may be 21 °C off is refused", () => {
    const model = () =>
      hydrometerModel(
        {
          reading: 1.046,
          tC: 20,
          hydrometer: plainHydrometer,
          accuracy: plainHydrometerAccuracy,
          temperatureHalfWidth: 21,
        },
        "SG",
      );
    expect(reasonOf(model).kind).toBe("out-of-range");
  });
});

describe("a refractometer", () => {
  const { components } = budgetOf(prism(6.4, { gravity: 1.048 }));
  const standard = (name: string): number =>
    components.find((each) => each.name === name)?.standardUncertainty ?? NaN;

  // Reference notes: ±0.2 °Bx make ±0.0016 in the gravity of a beer, 0.1 °Bx 0.00063.
  test("of ±0.2 °Bx gives a beer within ±0.0016, by its scale alone", () => {
    const scale = Math.hypot(
      standard("reading to the nearest division"),
      standard("maker's error of the scale"),
    );
    expect(2 * scale).toBeCloseTo(0.0016, 3.7);
    expect(standard("maker's error of the scale") / (0.2 / Math.sqrt(3))).toBeCloseTo(0.0063, 3);
  });

  test("has a factor that nearly cancels where it read the wort too", () => {
    const same = budgetOf(prism(6.4, { reading: 12.4 })).components;
    const factor = same.find(({ name }) => name === "wort correction factor")?.standardUncertainty ?? NaN;
    expect(factor).toBeLessThan(standard("wort correction factor") / 10);
    // A true factor of 1.02 treated as 1.00 moves the final gravity by 0.00004 only (reference notes).
    expect(factor / (UNKNOWN_FACTOR_HALF_WIDTH / Math.sqrt(3))).toBeLessThan(0.00004 / 0.02 + 0.0005);
  });
});

test("a refractometer that does not compensate must have a temperature, and is less sure for it", () => {
  const old = (tC?: number) =>
    refractometerModel(
      {
        reading: 12,
        tC,
        refractometer: { ...plainRefractometer, compensates: false },
        accuracy: plainRefractometerAccuracy,
        factor: factorAsUsual,
      },
      "SG",
    );
  expect(reasonOf(() => budgetOf(old()))).toMatchObject({ kind: "out-of-range", range: { unit: "°C" } });
  expect(budgetOf(old(20)).expandedUncertainty).toBeGreaterThan(budgetOf(prism(12)).expandedUncertainty);
});

describe("alcohol", () => {
  const pairs = reference("alcohol-beer-usda493-paired");
  const column = { BALLING: "abv_exact", QUOTIENT: "abv_balling_q", "DUTY-UK": "abv_hmrc", RULE: "abv_131" };

  test("scatters as 34 beers did, mean and standard deviation by other code", () => {
    expect(mean(pairs.map((row) => figure(row, "abv_meas")))).toBeCloseTo(MEAN_OF_BEERS, 2);
    for (const method of methods) {
      const off = pairs.map((row) => figure(row, column[method]) - figure(row, "abv_meas"));
      const share = Math.hypot(mean(off), deviation(off)) / MEAN_OF_BEERS;
      expect(yieldScatter(method)).toBeCloseTo(share, 2.6); // the notes round both to 0.01 % vol
    }
  });

  // 95 % of 34 are 32.3. Gravities are printed to 4 decimals.
  test("of 32 of these 34 beers or more lies within the expanded uncertainty, by every method", () => {
    expect(pairs.length).toBe(34);
    for (const method of methods) {
      const inside = pairs.filter((row) => {
        const gravities = beer(figure(row, "wort_sg"), figure(row, "beer_sg"), 0.0002);
        const { value, expandedUncertainty: expanded } = budgetOf(abvModel(gravities, method));
        return Math.abs(value - figure(row, "abv_meas")) <= expanded;
      });
      expect(inside.length, method).toBeGreaterThanOrEqual(32);
    }
  });

  // Cutaia, Reid and Speers 2009: A = (0.372 + 0.00357 OE)(OE − AE), standard error of estimate 0.0100, 532 fermentations.
  test("is no surer than other 532 fermentations were", () => {
    expect(yieldScatter("BALLING")).toBeGreaterThan(0.01 / (0.372 + 0.00357 * 12));
  });

  // Reference notes: 0.13 % vol for a gravity degree misread.
  test("moves by 0.13 % vol for a degree of gravity", () => {
    const { components } = budgetOf(abvModel(beer(1.048, 1.012, 0.002), "BALLING"));
    for (const name of ["original gravity", "final gravity"])
      expect(components.find((each) => each.name === name)?.standardUncertainty).toBeCloseTo(0.13, 1.9);
  });

  test("has the value of the function that it is about", () => {
    for (const method of methods)
      expect(budgetOf(abvModel(beer(1.048, 1.012), method)).value).toBe(
        alcoholByVolume(P(1.048), P(1.012), method),
      );
  });
});

describe("an error that both gravities share, such as that of one scale", () => {
  const shared = (is: number) => [{ between: ["original gravity", "final gravity"], is }] as const;
  const beers = [1.03, 1.048, 1.07, 1.1].flatMap((og) =>
    [0.5, 0.75, 0.9].map((lost) => beer(og, og - lost * (og - 1))),
  );

  test("makes alcohol and attenuation surer than independent ones do: those are the upper bound", () => {
    for (const gravities of beers) {
      const models = [
        ...methods.map((method) => abvModel(gravities, method)),
        ...attenuations.map((kind) => attenuationModel(gravities, kind)),
      ];
      for (const model of models) {
        const independent = budgetOf(model).standardUncertainty;
        for (const is of [0.25, 0.5, 1])
          expect(budgetOf(model, shared(is)).standardUncertainty).toBeLessThan(independent);
      }
    }
  });

  test("makes the attenuation less sure once beer is lighter than water, as its help says", () => {
    const dry = attenuationModel(beer(1.05, 0.996), "APPARENT");
    expect(budgetOf(dry, shared(1)).standardUncertainty).toBeGreaterThan(budgetOf(dry).standardUncertainty);
  });
});

test("uncertainties that leave nothing to know are refused", () => {
  const { kind } = reasonOf(() => abvModel({ ...beer(1.048, 1.012), finalPlusMinus: 1 }, "BALLING"));
  expect(kind).toBe("out-of-range");
  expect(reasonOf(() => attenuationModel(beer(1.048, 1.012, -0.001), "REAL")).kind).toBe("out-of-range");
});

/** What a model makes of quantities of which one is off by so much. */
const off = <Name extends string>({ of, result }: Model<Name>, name: Name, by: number): number => {
  const values = Object.fromEntries(
    Object.entries<Quantity>(of).map(([each, { value }]) => [each, each === name ? value + by : value]),
  ) as Record<Name, number>;
  return result(values);
};

describe("an error that is there goes the way it says", () => {
  test("of a hydrometer", () => {
    const model = glass(1.046, 27);
    const read = (sg: number): number => extractByHydrometer(sg, 27);
    expect(off(model, "maker's error of the scale", 0.002)).toBeCloseTo(gravityOfExtract(read(1.048)), 12);
    expect(off(model, "reading to the nearest division", 0.002)).toBeCloseTo(
      gravityOfExtract(read(1.048)),
      12,
    );
    expect(off(model, "temperature correction", 0.1)).toBeCloseTo(gravityOfExtract(read(1.046) + 0.1), 12);
    expect(off(model, "surface of the liquid", 0.01)).toBeCloseTo(1.01 * gravityOfExtract(read(1.046)), 12);
  });

  test("of a refractometer, in wort and in beer", () => {
    const wort = prism(10);
    expect(off(wort, "maker's error of the scale", 0.2)).toBeCloseTo(gravityOfExtract(10.2 / 1.04), 12);
    expect(off(wort, "temperature table", 0.2)).toBeCloseTo(gravityOfExtract(10.2 / 1.04), 12);
    const beerOf = (original: number) => prism(6.4, { reading: original });
    expect(off(beerOf(12.4), "maker's error of the original reading", 0.2)).toBe(
      off(beerOf(12.6), "temperature table", 0),
    );
    const model = prism(6.4, { gravity: 1.048 });
    const apparent = P(off(model, "model of refraction", 0));
    expect(P(off(model, "model of refraction", 0.24)) - apparent).toBeCloseTo(0.24, 9);
  });

  test("of a fermentation's yield", () => {
    const model = abvModel(beer(1.048, 1.012), "BALLING");
    const none = off(model, "yield of the fermentation", 0);
    expect(off(model, "yield of the fermentation", 0.03)).toBeCloseTo(1.03 * none, 12);
  });
});

describe("what cannot be off", () => {
  const names = (model: Model) => budgetOf(model).components.map(({ name }) => name);

  test("is the temperature correction where there is none to make", () => {
    expect(names(glass(1.046, 20))).not.toContain("temperature correction");
    expect(names(glass(1.046, 21))).toContain("temperature correction");
  });

  test("is apparent attenuation, by the fermentation: it is a definition", () => {
    const gravities = beer(1.048, 1.012);
    expect(names(attenuationModel(gravities, "APPARENT"))).not.toContain("yield of the fermentation");
    expect(names(attenuationModel(gravities, "REAL"))).toContain("yield of the fermentation");
    expect(budgetOf(attenuationModel(gravities, "APPARENT")).value).toBeCloseTo(
      100 * (1 - P(1.012) / P(1.048)),
      9,
    );
  });

  test("is an original that was known the other way, or not at all", () => {
    const [gravity, reading, other] = [
      "original gravity",
      "original reading to the nearest division",
      "maker's error of the original reading",
    ];
    expect(names(prism(10))).not.toEqual(expect.arrayContaining([gravity]));
    for (const each of [gravity, reading, other]) expect(names(prism(10))).not.toContain(each);
    const known = names(prism(6.4, { gravity: 1.048 }));
    expect(known).toContain(gravity);
    for (const each of [reading, other]) expect(known).not.toContain(each);
    const read = names(prism(6.4, { reading: 12.4 }));
    expect(read).not.toContain(gravity);
    for (const each of [reading, other]) expect(read).toContain(each);
  });
});

describe("how far the temperature correction may be off", () => {
  const spindle = { ...plainHydrometer, scale: "BX" } as const;
  const cells = reference("hydrometer-temp-brix20-transcribed").flatMap((row) =>
    Object.keys(row)
      .filter((column) => /^bx\d+$/.test(column))
      .map((column) => ({
        bx: Number(column.slice(2)),
        tC: figure(row, "t_C"),
        printed: figure(row, column),
      })),
  );

  for (const [above, upTo] of [
    [10, 20],
    [20, 25],
    [25, 30],
  ] as const)
    test(`is what the printed cells above ${above} and up to ${upTo} °C show, rounded up to 0.005 °Bx`, () => {
      const { by } = worst(
        cells.filter(({ tC }) => tC > above && tC <= upTo),
        ({ bx, tC, printed }) => extractByHydrometer(bx, tC, spindle) - bx - printed,
      );
      for (const tC of [above + 0.001, upTo])
        expect(correctionHalfWidth(tC) - Math.abs(by)).toBeLessThan(0.005 + 1e-9);
    });

  test("is more the farther from 20 °C, and twice as much where nothing is printed", () => {
    expect(correctionHalfWidth(5)).toBeGreaterThan(correctionHalfWidth(5.001));
    expect(correctionHalfWidth(10)).toBeGreaterThan(correctionHalfWidth(10.001));
    expect(correctionHalfWidth(0)).toBe(correctionHalfWidth(5));
    expect(correctionHalfWidth(30.001)).toBeGreaterThan(correctionHalfWidth(30));
    expect(correctionHalfWidth(60)).toBe(correctionHalfWidth(30.001));
    for (const tC of [60.001, 80]) expect(correctionHalfWidth(tC)).toBe(2 * correctionHalfWidth(60));
  });
});
