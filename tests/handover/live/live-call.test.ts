import { describe, expect, test } from "vitest";
import { NotLive } from "../../../src/handover/live/not-live.js";
import { liveFormulas, type Raw } from "../live-cells.js";

const at = { sheet: 0, row: 8, column: 8 };
const formulas = liveFormulas();
const live = (text: string, cells?: readonly (readonly Raw[])[]): string =>
  (cells ? liveFormulas(cells) : formulas).of(text, at).text;
const reason = (text: string, cells?: readonly (readonly Raw[])[]): string => {
  try {
    live(text, cells);
  } catch (error) {
    if (error instanceof NotLive) return error.message;
    throw error;
  }
  return "live";
};

describe("a formula without the add-in", () => {
  test("keeps what stands around a call of ours", () => {
    const text = live('IF(A1="","",ROUND(_xldudf_GYLE_CONVERT(A1,"P","SG"), 3) & " SG")');
    expect(text).toMatch(/^IF\(A1="","",ROUND\(IF\(.*\), 3\) & " SG"\)$/);
    expect(text).not.toMatch(/GYLE[._]/i);
  });

  test("loses the workbook that our function was said to be in", () => {
    expect(live('[1]!_xldudf_GYLE_CONVERT(A1,"P","SG")')).toBe(live('GYLE.CONVERT(A1,"P","SG")'));
  });

  test("needs no newer function, and is short enough, with cells far away on a sheet with a long name", () => {
    const far = "'The notes of the whole brewery'!$XFD$1048570";
    const text = live(`GYLE.CONVERT(${far},"SG","P")`);
    const names = [...text.matchAll(/([A-Z.]+)\(/g)].map(([, name]) => name);
    expect(new Set(names)).toEqual(
      new Set(["IF", "OR", "TRIM", "IFERROR", "AND", "ISNUMBER", "SUMPRODUCT", "NA"]),
    );
    expect(text.length).toBeLessThan(8192);
    expect(live(`GYLE.BOIL.GRAVITY(${far},${far},${far})`).length).toBeLessThan(2000);
  });

  test("has a call inside a call written out, as long as there is room", () => {
    const text = live('GYLE.EXTRACT.MASS(A1,GYLE.CONVERT(B1,"PTS","SG"))');
    expect(text).not.toMatch(/GYLE[._]/i);
    expect(live("GYLE.ABV(GYLE.HYDROMETER(A1,B1),GYLE.HYDROMETER(C1,D1))")).not.toMatch(/GYLE[._]/i);
    // Written out it would be longer than any string can be.
    expect(reason(`${"GYLE.ABV(".repeat(30)}A1${",1.01)".repeat(30)}`)).toMatch(/characters/);
  });

  test("has the number in place of a call that takes nothing from cells", () => {
    expect(Number(live('GYLE.CONVERT(1.048,"SG","PTS")'))).toBeCloseTo(48, 6);
    // Nor does one whose only cell does not count: a refractometer that compensates takes no temperature.
    expect(Number(live("GYLE.REFRACTOMETER.WORT(12.48,A1)"))).toBeCloseTo(1.0484, 4);
  });

  test("holds only for the instrument that its cell names now, which may be none", () => {
    const cells = [
      [1.05, 20, "Starting glass"],
      [1.05, 20],
    ];
    expect(live("GYLE.HYDROMETER(A1,B1,C1)", cells)).toContain('TRIM(C1)="Starting glass"');
    expect(live("GYLE.HYDROMETER(A2,B2,C2)", cells)).toContain('TRIM(C2)=""');
  });

  test("folds in the instrument: its graduations bound the readings", () => {
    const text = live('GYLE.HYDROMETER(A1,B1,"Starting glass")');
    expect(text).toContain("A1/1000^(A1>9)>=1.03");
    expect(live('GYLE.HYDROMETER(A1,B1,"Finishing glass")')).toContain("1.03>=A1/1000^(A1>9)");
  });
});

test("an argument that may be left out may be given by a cell: with nothing in it, it is left out", () => {
  const empty = 'TRIM(C1)=""'; // where a 0 is refused
  for (const [call, without, leftOut] of [
    ["GYLE.ENERGY(A1,B1,C1)", "GYLE.ENERGY(A1,B1)", `OR(C1=0,${empty})`],
    ["GYLE.VOLUME.COOLED(A1,B1,C1)", "GYLE.VOLUME.COOLED(A1,B1)", `OR(C1=0,${empty})`],
    ["GYLE.FORTIFY(A1,B1,D1,C1)", "GYLE.FORTIFY(A1,B1,D1)", empty],
    ["GYLE.CO2.LATENT(A1,B1,,C1)", "GYLE.CO2.LATENT(A1,B1)", `OR(C1=0,${empty})`],
  ] as const) {
    // Each has a block of its own on the sheet.
    const [text = "", usual = ""] = [call, without].map((each) => live(each).replace(/\$[A-Z]\$\d+/g, "#"));
    const answer = /(IFERROR\(.*\/AND\(COUNT\([A-D1,]+\)=\d,)/.exec(usual)?.[1];
    expect(text).toContain(`IF(${leftOut},${answer}`);
    expect(text.length).toBeLessThan(8192);
  }
  for (const nothing of ["", '""'])
    expect(live(`GYLE.FORTIFY(A1,B1,D1,${nothing})`)).toBe(live("GYLE.FORTIFY(A1,B1,D1)"));
});

describe("stays a value, with the reason, where", () => {
  test.each([
    ["GYLE.FERMENT.STEADY(A1:A9,B1:B9)", /no smooth function/],
    ["GYLE.SEASON(A1:A9,B1:B9,C1:C9,D1:D9)", /whole range at once/],
    ["GYLE.HYDROMETER(A1:A9,B1)", /whole range at once/],
    ['GYLE.ABV(A1,B1,"DUTY-UK")', /steps/],
    ['GYLE.REFRACTOMETER.WORT(A1,B1,"Brass prism")', /table with corners/],
    ["GYLE.PLUSMINUS.ABV(A1,B1,C1,D1)", /more from cells/],
    ["GYLE.PLUSMINUS.HYDROMETER(A1,B1)", /known by steps/],
    ['GYLE.EXTRACT.MASS(A1,B1,"stone")', /gives no number/],
    ['GYLE.EXTRACT.POTENTIAL(A1:A3,B1:B3,"stone")', /gives no number/],
    ["GYLE.FORTIFY(A1,B1,C1,500)", /gives no number/],
    ["GYLE.FORTIFY(A1,B1,C1,0)", /gives no number/],
    ["GYLE.FORTIFY(A1,B1,C1,0.79)", /gives no number/],
    ['GYLE.FORTIFY(A1,B1,C1,79,,"gal")', /gives no number/],
    ['GYLE.EFFICIENCY(A1,B1,C1:C3,D1:D3,"PPG","l")', /gives no number/],
    ["GYLE.BLEND(A1:A3,B1:B4)", /differ in shape/],
    ["GYLE.NOSUCH(A1)", /not there/],
    ["GYLE.VOLUME.COOLED(A1,GYLE.NOSUCH(B1)%)", /not there/],
    ['GYLE.NOSUCH(GYLE.CONVERT(A1,"SG","P"))', /not there/],
    ['GYLE.HYDROMETER(A1,B1,"No such glass")', /no polynomial/],
    ['GYLE.HYDROMETER(A1,B1,"Starting "&"glass")', /worked out/],
  ])("%s", (text, why) => {
    expect(reason(text)).toMatch(why);
  });
});
