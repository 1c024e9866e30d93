import type { z } from "zod";

const LONGEST_SHOWN = 40;

/** A value, shortened for a message. */
function shown(value: unknown): string {
  if (value === undefined) return "nothing";
  const text = JSON.stringify(value);
  // A character may take two code units; do not split it.
  return text.length > LONGEST_SHOWN
    ? `${text.slice(0, LONGEST_SHOWN).replace(/[\uD800-\uDBFF]$/, "")}…`
    : text;
}

function dotted(path: readonly PropertyKey[]): string {
  return path
    .map((key, i) => (typeof key === "number" ? `[${key}]` : `${i > 0 ? "." : ""}${String(key)}`))
    .join("");
}

function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  let value = root;
  for (const key of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

const list = (values: readonly unknown[]): string => values.map((value) => JSON.stringify(value)).join(", ");

function allowed(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return issue.expected === "array"
        ? "a list"
        : issue.expected === "object"
          ? "an object"
          : `a ${issue.expected}`;
    case "invalid_value":
      return issue.values.length === 1 ? list(issue.values) : `one of ${list(issue.values)}`;
    case "invalid_union":
      return "options" in issue && Array.isArray(issue.options)
        ? `one of ${list(issue.options)}`
        : "another form";
    case "too_small":
      if (issue.origin === "string") return "a text that is not empty";
      return `a number ${issue.inclusive === false ? "above" : "of at least"} ${issue.minimum}`;
    case "too_big":
      if (issue.origin === "string") return `at most ${issue.maximum} characters`;
      if (issue.origin === "array") return `at most ${issue.maximum} entries`;
      return `a number of at most ${issue.maximum}`;
    case "invalid_format":
      return issue.format === "datetime" ? 'a time such as "2026-03-14T09:30:00Z"' : `a ${issue.format}`;
    case "custom":
    case "invalid_element":
    case "invalid_key":
    case "not_multiple_of":
    case "unrecognized_keys":
      return issue.message;
  }
}

/** A problem at one place of an input. */
export interface Problem {
  readonly path: readonly PropertyKey[];
  /** Allowed values, to follow "allowed is"; undefined if there is no such field. */
  readonly allowed: string | undefined;
}

export function problemsOf(error: z.ZodError): Problem[] {
  return error.issues.flatMap((issue): Problem[] =>
    issue.code === "unrecognized_keys"
      ? issue.keys.map((key) => ({ path: [...issue.path, key], allowed: undefined }))
      : [{ path: issue.path, allowed: allowed(issue) }],
  );
}

/** One sentence for each problem: where, what was found, what is allowed. */
export function sentences(error: z.ZodError, input: unknown): string[] {
  return problemsOf(error).map(({ path, allowed }) =>
    allowed === undefined
      ? `${dotted(path)}: there is no such field here.`
      : `${dotted(path) || "the file"}: found ${shown(valueAt(input, path))}; allowed is ${allowed}.`,
  );
}
