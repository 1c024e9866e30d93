import type { Step } from "../core/steps.js";
import { catalogue } from "./catalogue.js";
import type { Result } from "./cell-value.js";
import { NAMESPACE, topics, type FunctionSpec } from "./function-spec.js";
import { helpPath } from "./metadata.js";

const escape = (text: string): string => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

/** Where the system writes decimals with a comma, arguments are separated by semicolons. */
function withSemicolons(formula: string): string {
  return formula
    .split(/("[^"]*")/)
    .map((piece) =>
      piece.startsWith('"') ? piece : piece.replaceAll(",", ";").replaceAll(/(\d)\.(\d)/g, "$1,$2"),
    )
    .join("");
}

const STYLE = `body{font:16px/1.5 system-ui,sans-serif;max-width:46rem;margin:2rem auto;padding:0 1rem;color-scheme:light dark}
h1{font-size:1.5rem}h2{font-size:1.1rem;margin-top:2rem}code{font-size:.95em}
table{border-collapse:collapse}td,th{text-align:left;vertical-align:top;padding:.3rem 1rem .3rem 0;border-top:1px solid #8886}
.caution{border-left:.3rem solid #c77800;padding-left:1rem}`;

function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escape(title)}</title>
<style>${STYLE}</style></head>
<body>
${body}
</body>
</html>
`;
}

/** An example that was worked out, by the calculation itself. */
export interface WorkedExample {
  /** Without "=". */
  readonly formula: string;
  readonly steps: readonly Step[];
  readonly plusMinus: Result | undefined;
}

/** Enough digits to follow the calculation. */
const digits = (value: number): string => String(Number(value.toPrecision(7)));

function workedOut({ formula, steps, plusMinus }: WorkedExample): string {
  const rows = steps.map(
    ({ what, value, unit, source }) =>
      `<tr><td>${escape(what)}</td><td>${escape(`${digits(value)} ${unit === "SG" ? "" : unit}`.trim())}</td><td>${escape(source ?? "")}</td></tr>`,
  );
  const sure =
    typeof plusMinus === "number" ? `<p>± ${digits(Number(plusMinus.toPrecision(2)))} (k = 2).</p>` : "";
  return `<h2>Worked out</h2>
<p><code>=${escape(formula)}</code></p>
<table>${rows.join("\n")}</table>
${sure}`;
}

function sureness({ sureness: found }: FunctionSpec): string {
  if (!found) return "";
  const file = `${found.by.toLowerCase()}.html`;
  return `<h2>How sure</h2>\n<p><a href="${file}"><code>${NAMESPACE}.${found.by}</code></a> says it.</p>`;
}

/**
 * The help of one function: what Excel opens from its formula bar.
 *
 * @param worked an example with its steps, where there is one that needs no workbook
 */
export function helpPage(spec: FunctionSpec, worked?: WorkedExample): string {
  const name = `${NAMESPACE}.${spec.name}`;
  const call = `${name}(${spec.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(", ")})`;
  const rows = spec.parameters.map(
    (p) => `<tr><th scope="row"><code>${escape(p.name)}</code></th><td>${escape(p.description)}</td></tr>`,
  );
  const examples = spec.examples.map(
    ({ formula, says }) =>
      `<p><code>=${escape(formula)}</code><br>or, where decimals are written with a comma, <code>=${escape(withSemicolons(formula))}</code><br>${escape(says)}</p>`,
  );
  return page(
    name,
    `<p><a href="index.html">All functions</a></p>
<h1>${escape(name)}</h1>
<p>${escape(spec.summary)}</p>
<p><code>=${escape(call)}</code></p>
<table>${rows.join("\n")}</table>
<p>Every argument may be a cell or a range. An empty line gives an empty result; a bad cell gives one error, in its place.</p>
<h2>Result</h2>
<p>${escape(spec.returns)}</p>
${spec.caution === undefined ? "" : `<p class="caution"><strong>Caution.</strong> ${escape(spec.caution)}</p>`}
<h2>Examples</h2>
${examples.join("\n")}
${worked ? workedOut(worked) : ""}
<h2>How</h2>
<p>${escape(spec.method.trim())}</p>
${sureness(spec)}`,
  );
}

/** The list of all functions, by what one wants to know. */
export function helpIndex(): string {
  const sections = topics.map((topic) => {
    const items = catalogue
      .filter((spec) => spec.topic === topic)
      .map((spec) => {
        const file = helpPath(spec).replace("help/", "");
        return `<li>${escape(spec.question)}<br><a href="${file}"><code>${NAMESPACE}.${spec.name}</code></a>: ${escape(spec.summary)}</li>`;
      });
    return `<h2>${escape(topic)}</h2>\n<ul>${items.join("\n")}</ul>`;
  });
  return page("Gylesheet functions", `<h1>Gylesheet functions</h1>\n${sections.join("\n")}`);
}
