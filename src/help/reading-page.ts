import { catalogue } from "../functions/catalogue.js";
import { evaluate } from "../functions/evaluate.js";
import { helpFile } from "../functions/metadata.js";
import { kindOf } from "../instruments/describe.js";
import type { Kind } from "../instruments/schema.js";
import { readingPage } from "../instruments/reading-page.js";
import { goodReadings } from "./good-readings.js";
import { code, escape, link, list, helpPage, prose, section, table } from "./html.js";
import { figure, shownCell } from "./outcome.js";
import { sampleInstruments } from "./sample-book.js";

const say = (text: string): string => prose(text);

/** How to take good readings with instruments of a kind. */
export function readingPageOf(kind: Kind): string {
  const { caution, lies, steps, writeDown, check, wrong } = goodReadings[kind];
  const rows = wrong.map(([sign, cause]) => [escape(sign), say(cause)]);
  return helpPage(
    readingPage(kind),
    `A good reading: ${kindOf({ kind })}`,
    [
      `<p class="caution">${escape(caution)}</p>\n<p>Common practice of the trade, without a printed source, where none is named.</p>\n`,
      section("What it lies about", list(lies.map(say))),
      section("How to read it", list(steps.map(say), "ol")),
      section("What to write down", list(writeDown.map(say))),
      section("What putting right does", demonstration(kind)),
      section("How to check it", list(check.map(say))),
      section("What goes wrong", table("What goes wrong", ["It", "Likely"], rows)),
      section("Functions that take its readings", functionsOf(kind)),
    ].join(""),
  );
}

/** From the catalogue: functions that name an instrument of this kind. */
function functionsOf(kind: Kind): string {
  const takers = catalogue.filter(({ parameters }) =>
    parameters.some((p) => p.namesInstrument && (p.instrumentKind ?? kind) === kind),
  );
  return list(takers.map(({ name, question }) => `${link(helpFile(name), code(name))} ${escape(question)}`));
}

/** Numbers that show the effect of the corrections, calculated by the functions themselves. */
function demonstration(kind: Kind): string {
  const cell = (name: string, ...args: readonly unknown[]): string =>
    shownCell(evaluate(name, args, sampleInstruments)[0]?.[0] ?? "", "SG");
  switch (kind) {
    case "hydrometer": {
      const rows = [5, 10, 15, 20, 25, 30, 40].map((tC) => [
        `${tC} °C`,
        "1.046",
        cell("HYDROMETER", 1.046, tC),
      ]);
      return `<p>A hydrometer that is true at 20 °C shows 1.046:</p>\n${table("Temperature", ["Sample", "It shows", "True gravity"], rows)}`;
    }
    case "refractometer": {
      const rows = [12.4, 11, 9.5, 8, 6.4].map((brix) => [
        `${figure(brix, "°Bx")} °Bx`,
        cell("REFRACTOMETER.WORT", brix),
        cell("REFRACTOMETER.BEER", brix, 12.4),
      ]);
      return `<p>Wort that showed 12.4 °Bx, as it ferments:</p>\n${table("Alcohol", ["It shows", "If alcohol is forgotten", "True gravity"], rows)}`;
    }
    case "floating": {
      const rows = [1.05, 1.03, 1.016, 1.01].map((shows) => [
        figure(shows, "SG"),
        cell("FLOATING", shows, "Bobber"),
      ]);
      return `<p>The Bobber of an invented brewery showed 1.010 where glass showed 1.012, and 1.050 where glass showed 1.050:</p>\n${table("Calibration", ["It shows", "Put right"], rows)}`;
    }
  }
}
