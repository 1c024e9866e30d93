// From the form of an instrument as filled in to a profile.
import { writtenSg } from "../../core/liquid/scales.js";
import { nameKey } from "../../instruments/name.js";
import type { Profile } from "../../instruments/schema.js";
import { checkProfile, type InstrumentSet } from "../../instruments/set.js";
import { numberOf } from "../parts/number-text.js";
import { fieldsOf, type FormField, type FieldValues } from "./instrument-fields.js";

/** Errors by field; "" is for those that belong to no field. */
export type Errors = Readonly<Record<string, string>>;

/** Content of the form for a profile. */
export function draftOf(profile: Profile): FieldValues {
  const facts = profile as Readonly<Record<string, unknown>>;
  const texts: Record<string, string> = { name: profile.name };
  for (const { key } of fieldsOf[profile.kind]) texts[key] = textOf(facts[key]);
  return texts;
}

const textOf = (fact: unknown): string =>
  typeof fact === "string" || typeof fact === "number" || typeof fact === "boolean" ? String(fact) : "";

/** Value of a field for the profile; undefined if it is empty. */
function factOf(field: FormField, values: FieldValues): { fact: unknown } | { error: string } {
  const text = values[field.key]?.trim() ?? "";
  if (field.when && !field.when(values)) return { fact: undefined };
  if (field.choices) return { fact: text === "true" || text === "false" ? text === "true" : text };
  if (text === "") return { fact: undefined };
  const number = numberOf(text);
  if (number === undefined)
    return { error: `"${text.slice(0, 30)}" is not a number. Write it like 1.046, without a unit.` };
  return { fact: field.mark && values["scale"] === "SG" ? writtenSg(number) : number };
}

/**
 * The profile that a form describes, or the errors by field.
 *
 * @param base the profile that the form started from; anything not in the form is kept
 * @param others names already taken
 */
export function profileOf(
  values: FieldValues,
  base: Profile,
  others: InstrumentSet,
): { readonly profile: Profile } | { readonly errors: Errors } {
  const fields = fieldsOf[base.kind];
  const errors: Record<string, string> = {};
  const facts: Record<string, unknown> = { ...base, name: values["name"] ?? "" };
  for (const field of fields) {
    const read = factOf(field, values);
    if ("error" in read) errors[field.key] = read.error;
    else if (read.fact === undefined) Reflect.deleteProperty(facts, field.key);
    else facts[field.key] = read.fact;
  }
  const key = nameKey(values["name"] ?? "");
  if (others.instruments.some(({ name }) => nameKey(name) === key))
    errors["name"] = "Another instrument of this workbook has this name.";
  const checked = checkProfile(facts);
  if ("profile" in checked && Object.keys(errors).length === 0) return checked;
  if ("problems" in checked)
    for (const { path, allowed } of checked.problems) {
      const [at] = path;
      const field = at === "name" || fields.some((each) => each.key === at) ? String(at) : "";
      const sentence = `${field === "" ? `${path.join(" ")}: ` : ""}${allowed === undefined ? "There is no such thing." : `Give ${allowed}.`}`;
      errors[field] ??= sentence;
    }
  return { errors };
}
