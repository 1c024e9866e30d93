// Mistakes that are possible with some functions only, each with its remedy.

type Made = readonly (readonly [formula: string, remedy: string])[];

const PERCENT = "Write the number of percent, or multiply the cell by 100.";

const offScale = "Take the other instrument of the pair, or mend its graduations in the pane.";

/** Two gravities in the wrong order, and a final gravity that no yeast reaches. */
const pairs = (name: string): Made => [
  [`GYLE.${name}(1.012,1.048)`, "The original comes first. Swap the two."],
  [`GYLE.${name}(1.048,0.985)`, "Read again at eye level, in a cool sample. Do the two belong to one batch?"],
];

const own: Readonly<Partial<Record<string, Made>>> = {
  HYDROMETER: [['GYLE.HYDROMETER(1.046,20,"Finishing glass")', offScale]],
  "REFRACTOMETER.WORT": [
    ['GYLE.REFRACTOMETER.WORT(12.4,,"Brass prism")', "Give the temperature of the prism as second argument."],
  ],
  "REFRACTOMETER.BEER": [
    [
      "GYLE.REFRACTOMETER.BEER(13.5,1.048)",
      "Clean the prism and read again; find your own wort correction factor.",
    ],
    ["GYLE.REFRACTOMETER.BEER(6.4,150)", "Give the original gravity, or the °Bx before fermentation."],
  ],
  FLOATING: [['GYLE.FLOATING(1.095,"Bobber")', "Calibrate it in stronger wort too, or read with glass."]],
  CONVERT: [['GYLE.CONVERT(48,"SG","P")', 'Points are "PTS".']],
  ABV: [
    ...pairs("ABV"),
    [
      'GYLE.ABV(1.125,1.010,"DUTY-UK")',
      "Use the default method; the duty table says nothing of so strong a beer.",
    ],
  ],
  ABW: pairs("ABW"),
  "ATTENUATION.APPARENT": pairs("ATTENUATION.APPARENT").slice(0, 1),
  "ATTENUATION.REAL": pairs("ATTENUATION.REAL"),
  "EXTRACT.REAL": pairs("EXTRACT.REAL"),
  ENERGY: pairs("ENERGY"),
  "FINAL.EXPECTED": [["GYLE.FINAL.EXPECTED(1.048,0.75)", PERCENT]],
  ORIGINAL: [["GYLE.ORIGINAL(1.012,2)", "Read both again, of one sample without gas."]],
  "CO2.LATENT": [
    ["GYLE.CO2.LATENT(1.008,1.010)", "Expect a lower final gravity: a forced fermentation shows it."],
  ],
  "PLUSMINUS.HYDROMETER": [['GYLE.PLUSMINUS.HYDROMETER(1.046,20,"Finishing glass")', offScale]],
  "EXTRACT.POTENTIAL": [
    ["GYLE.EXTRACT.POTENTIAL(4.2,0.8)", PERCENT],
    [
      'GYLE.EXTRACT.POTENTIAL(9,1.037,"PPG")',
      "Points are what stands behind the point, as a whole number: 37.",
    ],
  ],
  EFFICIENCY: [
    ["GYLE.EFFICIENCY(230,1.048,C2:C4,D2:D4)", "Check the units: here 230 was meant to be 23."],
    ["GYLE.EFFICIENCY(23,1.048,4.2,0.8)", PERCENT],
    [
      'GYLE.EFFICIENCY(6,1.048,C2:C4,D2:D4,,"gal")',
      "Name the other unit too, so that kilograms are not taken for pounds.",
    ],
  ],
  BLEND: [["GYLE.BLEND(A2:A4,B5:B7)", "Give each volume its gravity. Water is 1.000."]],
  "BOIL.GRAVITY": [["GYLE.BOIL.GRAVITY(30,1.040,35)", "To add water, use DILUTE."]],
  "BOIL.VOLUME": [["GYLE.BOIL.VOLUME(30,1.048,1.040)", "Is it to become thinner? Use DILUTE."]],
  DILUTE: [["GYLE.DILUTE(23,1.048,1.056)", "Is it to become stronger? Use BOIL.VOLUME or FORTIFY."]],
  FORTIFY: [
    ["GYLE.FORTIFY(30,1.040,1.036)", "Is it to become thinner? Use DILUTE."],
    ["GYLE.FORTIFY(30,1.036,1.040,5)", "Give the yield in %, as the bag says."],
    ["GYLE.FORTIFY(30,1.036,1.040,0.79)", PERCENT],
    ["GYLE.FORTIFY(30,1.036,1.040,0)", "Leave it out for sugar, or write what the bag says."],
  ],
  INSTRUMENT: [['GYLE.INSTRUMENT("Bobber","FACTOR")', "Ask for what an instrument of this kind has."]],
  "FERMENT.RATE": [['GYLE.FERMENT.RATE(A2:A900,B2:B900,"2026-05-01")', "Ask about a time within the log."]],
  "FERMENT.REACHES": [
    ["GYLE.FERMENT.REACHES(A2:A900,B2:B900,1.060)", "Ask for a gravity below the first reading."],
    [
      "GYLE.FERMENT.REACHES(A2:A900,B2:B900,1.006)",
      "It will not get there by itself. Is it stuck, or was too much expected?",
    ],
    ["GYLE.FERMENT.REACHES(A2:A5,B2:B5,1.018)", "Ask again with more readings."],
    ["GYLE.FERMENT.REACHES(A2:A8,B2:B8,1.018)", "Ask again tomorrow."],
  ],
};

export const ownMistakes = (name: string): Made => own[name] ?? [];
