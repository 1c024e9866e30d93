// What stands in the season of an invented brewery. All names, beers and readings are made up.

import {
  GRAVITY,
  heads,
  native,
  ONE,
  ours,
  PERCENT,
  title,
  unlessBlank,
  type Content,
  type ExampleSheet,
  type Styled,
} from "./sheet.js";

const day = (month: number, date: number): Styled => ({
  value: new Date(Date.UTC(2026, month - 1, date)),
  format: "yyyy-mm-dd",
});

const readMe: ExampleSheet = {
  name: "Read me",
  widths: [110],
  rows: [
    [title("A season at Quillback Lane Brewery (invented)")],
    ["Everything in this workbook is made up: the brewery, its beers, its readings and its instruments."],
    [
      "Formulas that begin with GYLE. are Gylesheet's. Without the add-in they keep the values that were calculated last.",
    ],
    [],
    ["Season: readings as they were taken, and one formula that puts a whole season right."],
    [
      "Brew day: one batch from the mash to the fermenter: volumes, efficiency, and what to do when gravity is off.",
    ],
    ["Fermentation: a floating hydrometer and a refractometer on the way, a glass hydrometer at the end."],
    ["Beers: alcohol by several methods, attenuation, extract and energy of finished beers."],
    ["Instruments: what each of them is, by its profile."],
    [],
    [
      "Nothing here says that a beer is safe to bottle, what a label or a duty return may say, or who may drive. Cool hot wort",
    ],
    [
      "before it goes near glass. For labels and duty the law where you are and a licensed laboratory decide.",
    ],
  ],
};

type Batch = readonly [
  no: number,
  beer: string,
  date: Styled,
  og: number,
  ogC: number,
  fg?: number,
  fgC?: number,
];

const batches: readonly (Batch | undefined)[] = [
  [201, "Lantern Pale", day(1, 17), 1.045, 24.5, 1.009, 18.2],
  [202, "Cartwheel Bitter", day(1, 31), 1.038, 22, 1.008, 19.4],
  [203, "Slate Porter", day(2, 14), 1056, 26.5, 1.013, 17.8],
  [204, "Gannet Lager", day(2, 28), 1.048, 20.4, 1.008, 12.6],
  undefined,
  [205, "Thistle Wheat", day(3, 14), 1.046, 27.8, 1.01, 19],
  [206, "Winter Anvil", day(3, 28), 1.078, 25.1, 1.018, 18.9],
  [207, "Lantern Pale", day(4, 11), 1046, 23.3, 1.008, 20.1],
  [208, "Slate Porter", day(4, 25), 1.055, 28.4, 1.012, 18.5],
  [209, "Thistle Wheat", day(5, 9), 1.044, 21.7],
];

const FIRST = 5;
const LAST = FIRST + batches.length - 1;
const down = (column: string): string => `${column}${FIRST}:${column}${LAST}`;

const seasonColumn = (column: number): string =>
  `AVERAGE(INDEX(GYLE.SEASON(${down("D")},${down("E")},${down("G")},${down("H")},${down("F")},${down("I")}),0,${column}))`;

const season: ExampleSheet = {
  name: "Season",
  widths: [8, 18, 13, 10, 8, 16, 10, 8, 16, 11, 11, 10, 16, 12],
  frozenRows: 4,
  rows: [
    [title("Season 2026, Quillback Lane Brewery (invented)")],
    ["Readings as taken in columns D to I; what they mean in J to N. In Excel, one GYLE.SEASON formula fills J to N for all rows."],
    [],
    heads(
      "Batch", "Beer", "Brewed", "OG read", "°C", "Read with", "FG read", "°C", "Read with", "True OG", "True FG",
      "% vol", "Apparent att. %", "Real att. %",
    ),
    ...batches.map((batch, i): Content[] => {
      const row = FIRST + i;
      const pair = `J${row},K${row}`;
      const results = [
        unlessBlank(`D${row}`, `GYLE.HYDROMETER(D${row},E${row},F${row})`),
        unlessBlank(`G${row}`, `GYLE.HYDROMETER(G${row},H${row},I${row})`),
        unlessBlank(`K${row}`, `GYLE.ABV(${pair})`, PERCENT),
        unlessBlank(`K${row}`, `GYLE.ATTENUATION.APPARENT(${pair})`, ONE),
        unlessBlank(`K${row}`, `GYLE.ATTENUATION.REAL(${pair})`, ONE),
      ];
      if (!batch) return [...Array<undefined>(9).fill(undefined), ...results];
      const [no, beer, date, og, ogC, fg, fgC] = batch;
      const finishing = fg === undefined ? undefined : "Finishing glass";
      return [no, beer, date, og, ogC, "Starting glass", fg, fgC, finishing, ...results];
    }),
    [],
    [undefined, title("Mean of the season"), ...Array<undefined>(7).fill(undefined), ...["J", "K"].map((c) => native(`AVERAGE(${down(c)})`, GRAVITY)), native(`AVERAGE(${down("L")})`, PERCENT), ...["M", "N"].map((c) => native(`AVERAGE(${down(c)})`, ONE))],
    [undefined, title("The same in one formula each"), ...Array<undefined>(7).fill(undefined), ...[1, 2].map((c) => ours(seasonColumn(c))), ours(seasonColumn(3), PERCENT), ...[4, 5].map((c) => ours(seasonColumn(c), ONE))],
    [undefined, title("Finished batches"), ...Array<undefined>(9).fill(undefined), native(`COUNT(${down("L")})`, "0")],
  ],
}; // prettier-ignore

/** Boil as planned; else thin what would be too strong, boil on where that costs little wort, add extract where it would. */
const decision = `IF(ABS(B23-B21)<0.0005,"Boil to "&TEXT(B22,"0.0")&" L as planned",${[
  `IF(B23>B21,"Boil to "&TEXT(B22,"0.0")&" L, then add "&TEXT(B26,"0.0")&" L of water"`,
  `IF(B24>0.9*B22,"Boil on, to "&TEXT(B24,"0.0")&" L"`,
  `"Boil to "&TEXT(B22,"0.0")&" L and add "&TEXT(B27,"0.00")&" kg of dried malt extract"`,
].join(",")})))`;

const brewDay: ExampleSheet = {
  name: "Brew day",
  widths: [60, 14, 14, 14],
  rows: [
    [title("Brew day of batch 206, Winter Anvil (invented)")],
    [],
    heads("Grist", "kg", "Yield %"),
    ["Pale malt", 7.9, 79.5],
    ["Crystal malt", 0.5, 74],
    ["White sugar", 0.6, 100],
    [title("Extract it could give, kg"), ours("GYLE.EXTRACT.POTENTIAL(B4:B6,C4:C6)", "0.000")],
    [],
    heads("Before the boil", "Volume, L", "Reading", "°C"),
    ["First runnings (refractometer °Bx)", 14, 23.2, 20],
    ["Second runnings (refractometer °Bx)", 18, 10.4, 20],
    ["Gravity of the first runnings", ours('GYLE.REFRACTOMETER.WORT(C10,D10,"Pocket prism")')],
    ["Gravity of the second runnings", ours('GYLE.REFRACTOMETER.WORT(C11,D11,"Pocket prism")')],
    ["Gravity of both together", ours("GYLE.BLEND(B10:B11,B12:B13)")],
    ["Kettle full, measured hot, L and °C", 32.8, undefined, 72],
    ["Kettle full at 20 °C, L", ours("GYLE.VOLUME.COOLED(B15,D15)", PERCENT)],
    ["Extract in the kettle, kg", ours("GYLE.EXTRACT.MASS(B16,B14)", "0.000")],
    [title("Mash efficiency, %"), ours("GYLE.EFFICIENCY(B16,B14,B4:B6,C4:C6)", ONE)],
    [],
    heads("What to do about it"),
    ["Gravity wanted", 1.078],
    ["Volume after the boil, L at 20 °C", 25],
    ["Gravity after boiling down to that", ours("GYLE.BOIL.GRAVITY(B16,B14,B22)")],
    ["Volume to boil down to instead, L at 20 °C", ours("GYLE.BOIL.VOLUME(B16,B14,B21)", PERCENT)],
    [
      "Or dried malt extract to add to the full kettle for 1.066, kg",
      ours("GYLE.FORTIFY(B16,B14,1.066,95)", "0.000"),
    ],
    [
      "Or water that would thin the end of the boil to the gravity wanted, L",
      ours("IF(B23>B21,GYLE.DILUTE(B22,B23,B21),0)", PERCENT),
    ],
    [
      "Or dried malt extract that would bring it up to that, kg",
      ours("IF(B23<B21,GYLE.FORTIFY(B22,B23,B21,95),0)", "0.000"),
    ],
    [title("So"), native(decision, "General")],
    [],
    heads("Into the fermenter", "Volume, L", "Reading", "°C"),
    ["Measured", 23.5, 1.078, 25.1],
    ["Original gravity", ours('GYLE.HYDROMETER(C31,D31,"Starting glass")')],
    [title("Brewhouse efficiency, %"), ours("GYLE.EFFICIENCY(B31,B32,B4:B6,C4:C6)", ONE)],
    ["Lost on the way, percentage points", native("B18-B33", ONE)],
  ],
};

const log: readonly (readonly [date: number, reading: number])[] = [
  [0, 1.0478], [0.5, 1.0469], [1, 1.0432], [1.5, 1.0381], [2, 1.0322], [2.5, 1.0268], [3, 1.0224], [4, 1.0163],
  [5, 1.0127], [6, 1.0106], [7, 1.0094], [8, 1.0089],
]; // prettier-ignore

const FIRST_LOG = 4;
const LAST_LOG = FIRST_LOG + log.length - 1;

const fermentation: ExampleSheet = {
  name: "Fermentation",
  widths: [14, 14, 16, 16, 18, 18],
  frozenRows: 3,
  rows: [
    [title("Batch 204, Gannet Lager (invented): floating hydrometer, and °Bx now and then")],
    ["Original gravity", undefined, ours('GYLE.HYDROMETER(1.048,20.4,"Starting glass")')],
    heads("Day", "Floating", "Corrected", "°Bx", "Gravity by °Bx", "Difference, points"),
    ...log.map(([date, reading], i): Content[] => {
      const row = FIRST_LOG + i;
      const brix = [12.3, undefined, 11.4, undefined, 9.6, undefined, 8, undefined, undefined, 6.3][i];
      return [
        date,
        { value: reading, format: GRAVITY },
        ours(`GYLE.FLOATING(B${row},"Bobber")`),
        brix,
        unlessBlank(`D${row}`, `GYLE.REFRACTOMETER.BEER(D${row},$C$2,,"Pocket prism")`),
        native(`IF(D${row}="","",ROUND(1000*(E${row}-C${row}),1))`, ONE),
      ];
    }),
    [],
    [
      "Glass at the end",
      1.008,
      ours(`GYLE.HYDROMETER(B${LAST_LOG + 2},D${LAST_LOG + 2},"Finishing glass")`),
      12.6,
      "°C in column D",
    ],
    [
      "CO₂ that it would still make down to 1.0085, g/L",
      undefined,
      ours(`GYLE.CO2.LATENT(C${LAST_LOG + 2},1.0085,,C2)`, PERCENT),
      "On top of what is dissolved; no word on bottling.",
    ],
  ],
};

const finished: readonly (readonly [beer: string, og: number, fg: number, brix: number])[] = [
  ["Lantern Pale", 1.0461, 1.0116, 6.3],
  ["Slate Porter", 1.0575, 1.0156, 8.1],
  ["Winter Anvil", 1.0793, 1.0209, 11.1],
];

const beers: ExampleSheet = {
  name: "Beers",
  widths: [20, 10, 10, 10, 12, 12, 12, 12, 12, 14, 14, 12, 12, 14, 16, 12],
  frozenRows: 3,
  rows: [
    [title("Finished beers (invented)")],
    [],
    heads(
      "Beer", "OG", "FG", "°Bx now", "% vol", "by quotient", "UK duty", "131.25 rule", "% m/m", "Apparent att. %",
      "Real att. %", "Real extract", "kcal / 330 mL", "FG at 75 %", "OG from FG and °Bx", "OG, °P",
    ),
    ...finished.map(([beer, og, fg, brix], i): Content[] => {
      const row = 4 + i;
      const pair = `B${row},C${row}`;
      return [
        beer, { value: og, format: GRAVITY }, { value: fg, format: GRAVITY }, brix,
        ours(`GYLE.ABV(${pair})`, PERCENT), ours(`GYLE.ABV(${pair},"QUOTIENT")`, PERCENT),
        ours(`GYLE.ABV(${pair},"DUTY-UK")`, PERCENT), ours(`GYLE.ABV(${pair},"RULE")`, PERCENT),
        ours(`GYLE.ABW(${pair})`, PERCENT), ours(`GYLE.ATTENUATION.APPARENT(${pair})`, ONE),
        ours(`GYLE.ATTENUATION.REAL(${pair})`, ONE), ours(`GYLE.EXTRACT.REAL(${pair})`, PERCENT),
        ours(`GYLE.ENERGY(${pair},330)`, "0"), ours(`GYLE.FINAL.EXPECTED(B${row},75)`),
        ours(`GYLE.ORIGINAL(C${row},D${row},"Pocket prism")`), ours(`GYLE.CONVERT(B${row},"SG","P")`, PERCENT),
      ];
    }),
    [],
    ["Strongest", ...Array<undefined>(3).fill(undefined), native("MAX(E4:E6)", PERCENT)],
    [],
    [title("A beer whose original gravity was lost: one flat sample, hydrometer and refractometer (invented)")],
    heads("Beer", "Reading", "°C", "°Bx", "FG", "OG", "% vol", "Real att. %"),
    [
      "Gannet Lager", 1.0085, 18.4, 6.3, ours('GYLE.HYDROMETER(B12,C12,"Finishing glass")'),
      ours('GYLE.ORIGINAL(E12,D12,"Pocket prism")'), ours("GYLE.ABV(F12,E12)", PERCENT),
      ours("GYLE.ATTENUATION.REAL(F12,E12)", ONE),
    ],
    ["Two near readings: 0.1 °Bx moves the original gravity by about 0.001. Good for knowing what it was, not for a label."],
    [],
    [title("How sure it is: expanded uncertainty, k = 2 (invented)")],
    heads("Beer", "OG", "±", "FG", "±", "% vol", "±", "Apparent att. %", "±", "°Bx", "FG by °Bx", "±"),
    [
      "Gannet Lager", ours('GYLE.HYDROMETER(1.048,20.4,"Starting glass")'),
      ours('GYLE.PLUSMINUS.HYDROMETER(1.048,20.4,"Starting glass")'),
      ours('GYLE.HYDROMETER(1.008,12.6,"Finishing glass")'),
      ours('GYLE.PLUSMINUS.HYDROMETER(1.008,12.6,"Finishing glass")'),
      ours("GYLE.ABV(B17,D17)", PERCENT), ours("GYLE.PLUSMINUS.ABV(B17,D17,C17,E17)", PERCENT),
      ours("GYLE.ATTENUATION.APPARENT(B17,D17)", ONE), ours("GYLE.PLUSMINUS.ATTENUATION(B17,D17,C17,E17)", ONE),
      6.3, ours('GYLE.REFRACTOMETER.BEER(J17,B17,,"Pocket prism")'),
      ours('GYLE.PLUSMINUS.REFRACTOMETER(J17,B17,,"Pocket prism")'),
    ],
  ],
}; // prettier-ignore

const instrumentList: ExampleSheet = {
  name: "Instruments",
  widths: [20, 16, 12, 60],
  rows: [
    [title("What the numbers were read with (invented)")],
    ["In Excel, the Gylesheet pane keeps these. They are stored inside this workbook."],
    [],
    heads("Instrument", "Property", "Value"),
    ...(
      [
        ["Starting glass", "CALIBRATION", "true at this temperature, °C"],
        ["Finishing glass", "MENISCUS", "added, because it is read at the top of the meniscus"],
        ["Pocket prism", "FACTOR", "wort correction factor"],
        ["Bobber", "SCATTER", "typical scatter of one logged reading"],
      ] as const
    ).map(([name, property, says], i): Content[] => [
      name,
      property,
      ours(`GYLE.INSTRUMENT(A${5 + i},B${5 + i})`, "General"),
      says,
    ]),
    [],
    [title("Check readings at 20 °C, and what came of them (invented)")],
    heads("Liquid", "Starting glass", "True", ""),
    ["Sugar, 6 °P", 1.024, 1.0237],
    ["Sugar, 10 °P", 1.0405, 1.04],
    ["Sugar, 20 °P", 1.0835, 1.083],
    ["Shift", undefined, ours("GYLE.CALIBRATE.SHIFT(B12:B14,C12:C14)")],
    [],
    heads("Unfermented wort", "°Bx", "Gravity", ""),
    ["Lantern Pale", 11.9, 1.0463],
    ["Slate Porter", 14.6, 1.0575],
    ["Winter Anvil", 19.8, 1.0793],
    [
      "Wort correction factor",
      undefined,
      ours('GYLE.CALIBRATE.FACTOR(B18:B20,C18:C20,"Pocket prism")', "0.000"),
    ],
  ],
};

export const seasonSheets: readonly ExampleSheet[] = [
  readMe,
  season,
  brewDay,
  fermentation,
  beers,
  instrumentList,
];
