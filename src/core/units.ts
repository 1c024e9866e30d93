/** Litres in one unit of volume, by the spreadsheet's own CONVERT codes. All exact by definition. */
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
} as const;
export type VolumeUnit = keyof typeof litresPer;

/** Kilograms in one unit of mass, by the spreadsheet's own CONVERT codes. All exact by definition. */
export const kilogramsPer = {
  kg: 1,
  g: 0.001,
  lbm: 0.45359237,
  ozm: 0.45359237 / 16,
} as const;
export type MassUnit = keyof typeof kilogramsPer;
