// Legal barrels of beer. CONVERT has no code for them: its "bbl" is the oil barrel of 42 US gallons, so ours have other
// names. US: 31 gallons (27 CFR 25.156; NIST Handbook 44, Appendix C, note 16). UK: 36 gallons (Inland Revenue Act
// 1880, section 11).

/** Litres per unit of volume, named by the spreadsheet's CONVERT codes where there is one. All exact by definition. */
export const litresPer = {
  l: 1,
  ml: 0.001,
  hl: 100,
  m3: 1000,
  gal: 3.785411784,
  qt: 0.946352946,
  pt: 0.473176473,
  uk_gal: 4.54609,
  uk_qt: 1.1365225,
  uk_pt: 0.56826125,
  us_beer_bbl: 117.347765304,
  uk_beer_bbl: 163.65924,
} as const;
export type VolumeUnit = keyof typeof litresPer;

/** Kilograms per unit of mass, named by the spreadsheet's CONVERT codes. All exact by definition. */
export const kilogramsPer = {
  kg: 1,
  g: 0.001,
  lbm: 0.45359237,
  ozm: 0.45359237 / 16,
} as const;
export type MassUnit = keyof typeof kilogramsPer;

const metric: ReadonlySet<string> = new Set<VolumeUnit | MassUnit>(["l", "ml", "hl", "m3", "kg", "g"]);

/** Whether a unit is metric, as opposed to pounds and gallons. */
export const isMetric = (unit: VolumeUnit | MassUnit): boolean => metric.has(unit);
