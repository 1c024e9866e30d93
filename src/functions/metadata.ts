import { catalogue } from "./catalogue.js";
import type { FunctionSpec } from "./contract/function-spec.js";

/** File name of a function's help page. @param name without the namespace */
export const helpFile = (name: string): string => `${name.toLowerCase()}.html`;

/** Path of a function's help page below the origin of the add-in. */
const helpPath = (spec: FunctionSpec): string => `help/${helpFile(spec.name)}`;

// Every parameter is a matrix of anything: Excel then passes ranges, blanks, text and errors untouched, and they are
// handled in one place here. Results are matrices, so that a range in gives a range out.
function entry(spec: FunctionSpec, origin: string): object {
  return {
    id: spec.name,
    name: spec.name,
    description: spec.summary,
    helpUrl: `${origin}/${helpPath(spec)}`,
    parameters: spec.parameters.map(({ name, description, optional }) => ({
      name,
      description,
      type: "any",
      dimensionality: "matrix",
      ...(optional ? { optional: true } : {}),
    })),
    result: { type: "any", dimensionality: "matrix" },
  };
}

/** functions.json for Excel. @param origin such as https://localhost:3000 */
export function metadata(origin: string): object {
  return { allowErrorForDataTypeAny: true, functions: catalogue.map((spec) => entry(spec, origin)) };
}
