import { describe, expect, test } from "vitest";
import { workedExample } from "../../src/build/worked-example.js";
import { helpPage } from "../../src/functions/help-page.js";
import { cell, functionNamed } from "../support/cells.js";
import { figure, reference } from "../support/reference.js";

const worked = (name: string) => workedExample(functionNamed(name));

describe("the worked example of a help page", () => {
  test("ends in what a cell with that formula shows", () => {
    const found = worked("HYDROMETER");
    expect(found?.formula).toBe("GYLE.HYDROMETER(1.046,27)");
    expect(found?.steps.at(-1)?.value).toBe(cell("HYDROMETER", 1.046, 27));
    expect(found?.plusMinus).toBe(cell("PLUSMINUS.HYDROMETER", 1.046, 27));
  });

  test("agrees with what was computed elsewhere: 1.048 fermented to 1.012", () => {
    const row = reference("alcohol-beer-method-comparison").find((each) => each["OG"] === "1.048");
    const abv = worked("ABV")?.steps.at(-1);
    // Its gravities are true, ours apparent: up to 0.05 % vol apart.
    expect(Math.abs((abv?.value ?? NaN) - figure(row, "abv_exact"))).toBeLessThan(0.05);
    expect(abv?.unit).toBe("% vol");
  });

  test("is left out where every example takes cells or an instrument", () => {
    expect(worked("SEASON")).toBeUndefined();
    expect(worked("FLOATING")).toBeUndefined();
    expect(worked("INSTRUMENT")).toBeUndefined();
  });

  test("stands on the page with its sources, and with how sure it is", () => {
    const page = helpPage(functionNamed("HYDROMETER"), worked("HYDROMETER"));
    expect(page).toMatch(/<h2>Worked out<\/h2>\n<p><code>=GYLE\.HYDROMETER\(1\.046,27\)/);
    expect(page).toContain("ISO 1768:1975");
    expect(page).toMatch(/<p>± 0\.0014 \(k = 2\)\.<\/p>/);
    expect(page).toContain('<a href="plusminus.hydrometer.html">');
  });
});
