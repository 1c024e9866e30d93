// The order in which a brew day needs the functions. The question that each answers is in the catalogue.

export interface Stage {
  readonly title: string;
  /** What happens at this stage. */
  readonly says: string;
  /** Names without the namespace. */
  readonly functions: readonly string[];
}

export const brewDay: readonly Stage[] = [
  {
    title: "Before the season",
    says: "Learn by how much each instrument lies, once, and write it into its profile.",
    functions: [
      "CALIBRATE.SHIFT",
      "CALIBRATE.FACTOR",
      "INSTRUMENT",
      "PLUSMINUS.HYDROMETER",
      "PLUSMINUS.REFRACTOMETER",
    ],
  },
  {
    title: "Mash and run-off",
    says: "A refractometer takes a drop; a kettle full of warm wort measures too much.",
    functions: [
      "REFRACTOMETER.WORT",
      "CONVERT",
      "EXTRACT.POTENTIAL",
      "VOLUME.COOLED",
      "EXTRACT.MASS",
      "BLEND",
      "EFFICIENCY",
    ],
  },
  {
    title: "Kettle",
    says: "Before the boil there is still time to boil longer, to add water, or to add sugar.",
    functions: ["BOIL.GRAVITY", "BOIL.VOLUME", "DILUTE", "FORTIFY"],
  },
  {
    title: "Fermenter",
    says: "The original gravity, cool, by glass; then watch it fall.",
    functions: [
      "HYDROMETER",
      "FINAL.EXPECTED",
      "FLOATING",
      "REFRACTOMETER.BEER",
      "FERMENT.SMOOTH",
      "FERMENT.RATE",
      "FERMENT.STAGES",
      "FERMENT.REACHES",
    ],
  },
  {
    title: "Before packaging",
    says: "Has it stood still, and what would the sugar still there do? Neither says that it is safe.",
    functions: ["FERMENT.STEADY", "CO2.LATENT"],
  },
  {
    title: "Afterwards",
    says: "What it came to, for one batch or for the season.",
    functions: [
      "ABV",
      "PLUSMINUS.ABV",
      "ABW",
      "ATTENUATION.APPARENT",
      "ATTENUATION.REAL",
      "PLUSMINUS.ATTENUATION",
      "EXTRACT.REAL",
      "ENERGY",
      "ORIGINAL",
      "SEASON",
    ],
  },
];
