import { catalogue } from "./catalogue.js";
import type { FunctionSpec } from "./contract/function-spec.js";

/** The help page of a function, in the folder of the help. @param name without the namespace */
export const helpFile = (name: string): string => `${name.toLowerCase()}.html`;

/** Where the help of a function stands, below the origin that the add-in is served from. */
const helpPath = (spec: FunctionSpec): string => `help/${helpFile(spec.name)}`;

// Every parameter is a matrix of anything: Excel then hands over ranges, blanks, text and errors untouched, and one place
// here treats them alike. Results are matrices, so that a range in gives a range out.
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

/** functions.json, as Excel reads it. @param origin such as https://localhost:3000 */
export function metadata(origin: string): object {
  return { allowErrorForDataTypeAny: true, functions: catalogue.map((spec) => entry(spec, origin)) };
}
