import type { Range } from "../core/refusal.js";
import { gravityOfExtract } from "../core/liquid/gravity.js";
import { catalogue, specNamed } from "../functions/catalogue.js";
import { NAMESPACE, type FunctionSpec, type Parameter } from "../functions/contract/function-spec.js";
import { helpFile } from "../functions/metadata.js";
import { factsOf, kindOf, kinds } from "../instruments/describe.js";
import { readingPage } from "../instruments/reading-page.js";
import {
  code,
  escape,
  formulaBlock,
  link,
  list,
  helpPage,
  prose,
  section,
  table,
  withSemicolons,
} from "./html.js";
import { mistakes, type Mistake } from "./mistakes.js";
import { sensitivities } from "./sensitivities.js";
import { figure, withUnit } from "./outcome.js";
import { covered, RESULT } from "./ranges.js";
import { sampleInstruments } from "./sample-book.js";
import { exampleCells, exampleResult, resultUnit } from "./worked-table.js";
import { workedExample, type WorkedExample } from "./worked-example.js";

/** Help page of one function; Excel opens it from its formula bar. */
export function functionPage(spec: FunctionSpec): string {
  const worked = workedExample(spec);
  const name = `${NAMESPACE}.${spec.name}`;
  return helpPage(
    helpFile(spec.name),
    name,
    [
      `<p class="question">${escape(spec.question)}</p>\n<p>${prose(spec.summary, spec.name)}</p>\n`,
      section("What it takes", takes(spec)),
      section("What it gives", `<p>${prose(spec.returns, spec.name)}</p>`),
      section(
        "Cautions",
        spec.caution === undefined ? "" : `<p class="caution">${prose(spec.caution, spec.name)}</p>`,
      ),
      section("Worked example", workedOut(spec, worked)),
      section("More examples", moreExamples(spec, worked)),
      section("Range", range(spec)),
      section("How sure it is", uncertainty(spec, worked)),
      section("Errors, and what to do", errors(mistakes(spec, worked))),
      section("Method and sources", `<p>${prose(spec.method, spec.name)}</p>`),
      section("See also", seeAlso(spec)),
    ].join(""),
  );
}

function takes({ name, parameters }: FunctionSpec): string {
  const call = `${NAMESPACE}.${name}(${parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(", ")})`;
  const row = (p: Parameter): string[] => [
    code(p.name),
    `${p.optional ? "<em>May be left out.</em> " : ""}${prose(p.description, name)}`,
  ];
  return `${formulaBlock(call)}
${table("Arguments", ["Argument", "What it is"], parameters.map(row))}
<p>Every argument may be a cell or a range. An empty line gives an empty result; a bad cell gives one error, in its place.</p>`;
}

function workedOut(spec: FunctionSpec, worked: WorkedExample): string {
  const { formula, says, steps, warnings } = worked;
  const named = sampleInstruments.instruments.filter(({ name }) => formula.includes(`"${name}"`));
  const facts = named.map(
    (profile) =>
      `<p><strong>${escape(profile.name)}</strong>: ${kindOf(profile)}, ${escape(factsOf(profile).join(", "))}.</p>`,
  );
  const rows = steps.map(({ what, value, unit, source }) => [
    `${escape(what)}${source === undefined ? "" : `<br><small>${escape(source)}</small>`}`,
    escape(withUnit(value, unit)),
  ]);
  return [
    `<p>${prose(says, spec.name)}${worked.cells || named.length > 0 ? " The brewery is invented." : ""}</p>`,
    exampleCells(worked),
    ...facts,
    formulaBlock(formula),
    `<p>Where decimals are written with a comma: ${code(`=${withSemicolons(formula)}`)}</p>`,
    exampleResult(spec, worked),
    rows.length === 0 ? "" : table("Steps of the calculation", ["Step by step", "Value"], rows),
    ...warnings.map((warning) => `<p>The pane adds: ${prose(warning, spec.name)}</p>`),
  ].join("\n");
}

function moreExamples({ name, examples }: FunctionSpec, worked: WorkedExample): string {
  return examples
    .filter(({ formula }) => formula !== worked.formula)
    .map(({ formula, says }) => `${formulaBlock(formula)}\n<p>${prose(says, name)}</p>`)
    .join("\n");
}

/** Ends of a range; for an extract, gravity too. */
function ends({ min, max, unit }: Range): string {
  const number = (value: number): string => String(Number(value.toPrecision(5))).replace("-", "−");
  const sg = (extract: number): string => figure(gravityOfExtract(extract), "SG");
  if (unit === "°P") return `${sg(min)} to ${sg(max)} SG, which is ${number(min)} to ${number(max)} °P`;
  if (max >= 1e6) return `above ${number(min)}, up to ${max.toLocaleString("en-GB")}`;
  if (unit === "SG") return `${number(min)} to ${number(max)} SG`;
  return `${number(min)} to ${number(max)} ${unit}`.trim();
}

function range(spec: FunctionSpec): string {
  const items = Object.entries(covered[spec.name] ?? {}).map(([parameter, ranges]) => {
    const label = parameter === RESULT ? "the result" : code(parameter);
    return `${label}: ${escape(ranges.map(ends).join("; or "))}`;
  });
  const own = spec.parameters.some(({ namesInstrument }) => namesInstrument)
    ? " With an instrument, what its profile says of its scale and its thermometer goes before that."
    : "";
  return items.length === 0
    ? `<p>Whatever instruments this workbook has.</p>`
    : `${list(items)}\n<p>Outside of this it refuses, and never guesses.${own}</p>`;
}

/** For results that are neither a number nor a reading. */
const LOG_UNCERTAINTY =
  "As sure as what logged it. Scatter and spikes are taken out; what the instrument is off by all the time stays in, and so does " +
  "what drifts slowly. Calibrate it against glass, and take final values with glass.";

function uncertainty(spec: FunctionSpec, worked: WorkedExample): string {
  const { uncertainty: found, topic } = spec;
  const unit = resultUnit(worked);
  if (topic === "Instruments" && sensitivities(spec, worked).length === 0)
    return "<p>It repeats what the profile says: as sure as who wrote it there.</p>";
  if (topic === "Fermentation") return `<p>${prose(LOG_UNCERTAINTY)}</p>`;
  if (topic === "How sure it is")
    return "<p>This is how sure: the steps above are its budget, each the standard uncertainty that one thing brings in. A brewer's slips, such as a bubble or a wrong row, are not in it.</p>";
  const parts: string[] = [];
  if (found && typeof worked.plusMinus === "number")
    parts.push(
      `<p>The worked example is good to <strong>± ${escape(withUnit(Number(worked.plusMinus.toPrecision(2)), unit))}</strong> (k = 2: about 95 % of what may reasonably be true). ${link(helpFile(found.by), code(`${NAMESPACE}.${found.by}`))} says it for your readings.</p>`,
    );
  else if (found) {
    const by = workedExample(specNamed(found.by));
    const value = by.results[0]?.[0];
    if (typeof value === "number")
      parts.push(
        `<p>${link(helpFile(found.by), code(`${NAMESPACE}.${found.by}`))} says it, once you know how sure the gravities are: ${code(`=${by.formula}`)} gives ± ${escape(withUnit(Number(value.toPrecision(2)), resultUnit(by)))} (k = 2).</p>`,
      );
  }
  const rows = sensitivities(spec, worked).map(({ parameter, by, change }) => [
    `${code(parameter)} ${escape(by)} higher`,
    escape(signed(change, unit)),
  ]);
  if (rows.length > 0)
    parts.push(
      `<p>How much the worked example hangs on what was measured:</p>\n${table("What moves the result", ["If this were", "the result would move by"], rows)}`,
    );
  return parts.join("\n");
}

function signed(change: number, unit: string): string {
  if (Math.abs(change) < 1e-9) return "nothing";
  const size = Number(Math.abs(change).toPrecision(2));
  return `${change < 0 ? "−" : "+"}${String(size)} ${unit === "SG" ? "" : unit}`.trim();
}

function errors(found: readonly Mistake[]): string {
  const items = found.map(({ made, error, remedy }) => {
    const what =
      "formula" in made ? code(`=${made.formula}`) : `${code(made.cell)} holds ${code(made.holds)}`;
    return `${what}<br><strong>${error.code}</strong> <span class="error">${escape(error.message)}</span><br>${prose(remedy)}`;
  });
  return `<p>What it really says, tried on the example above. In Excel the sentence is behind the sign beside the cell; the pane shows it for the selected cell.</p>\n${list(items).replace("<ul>", '<ul class="errors">')}`;
}

function seeAlso(spec: FunctionSpec): string {
  const used = kinds.filter((kind) =>
    spec.parameters.some((p) => p.namesInstrument && (p.instrumentKind ?? kind) === kind),
  );
  const others = catalogue.filter(({ topic, name }) => topic === spec.topic && name !== spec.name);
  return list([
    ...used.map((kind) => `Taking a good reading: ${link(readingPage(kind), kindOf({ kind }))}`),
    ...others.map(({ name, question }) => `${link(helpFile(name), code(name))} ${escape(question)}`),
  ]);
}
