import * as z from "zod";
import { nameKey } from "./name.js";
import { problemsOf, sentences, type Problem } from "./problems.js";
import { InstrumentsRefused } from "./refusal.js";
import { edited, name, profile, type Profile } from "./schema.js";

/** Raised whenever an older reader could misunderstand what a newer one writes. */
export const FORMAT_VERSION = 1;

const MAX_INSTRUMENTS = 1000;
const MAX_REMOVALS = 20_000;
/** More text than any set of instruments needs; refused before it is parsed. */
export const LONGEST_TEXT = 2_000_000;

const removal = z.strictObject({ name, edited });

const instrumentSet = z
  .strictObject({
    version: z.literal(FORMAT_VERSION),
    instruments: z.array(profile).max(MAX_INSTRUMENTS),
    /** Names that were removed, so that an older copy cannot bring them back unnoticed. */
    removed: z.array(removal).max(MAX_REMOVALS).optional(),
  })
  .superRefine(({ instruments }, context) => {
    const seen = new Map<string, number>();
    instruments.forEach(({ name }, i) => {
      const first = seen.get(nameKey(name));
      if (first === undefined) seen.set(nameKey(name), i);
      else
        context.addIssue({
          code: "custom",
          path: ["instruments", i, "name"],
          message: `another name: instruments[${first}] has this one`,
        });
    });
  });

/** The instruments of a workbook or of a file. */
export type InstrumentSet = z.infer<typeof instrumentSet>;

export const noInstruments: InstrumentSet = { version: FORMAT_VERSION, instruments: [] };

const versioned = z.looseObject({ version: z.number().int().min(1) });

/**
 * Reads a set of instruments from JSON text.
 *
 * @throws InstrumentsRefused if it is too long, not JSON, of a later version, or not valid: every problem with its path
 */
export function parseSet(text: string): InstrumentSet {
  if (text.length > LONGEST_TEXT)
    throw new InstrumentsRefused("unreadable", [
      `The instruments take ${text.length} characters; allowed are ${LONGEST_TEXT}.`,
    ]);
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    // The parser quotes its input, line breaks included.
    const why = (error as Error).message.replace(/\s+/g, " ");
    throw new InstrumentsRefused("unreadable", [`The instruments are not JSON: ${why}.`]);
  }
  const { data } = versioned.safeParse(json);
  if (data && data.version > FORMAT_VERSION)
    throw new InstrumentsRefused("newer", [
      `The instruments have format version ${data.version}; this Gylesheet reads up to ${FORMAT_VERSION}. Update it.`,
    ]);
  const read = instrumentSet.safeParse(json);
  if (!read.success) throw new InstrumentsRefused("invalid", sentences(read.error, json));
  return read.data;
}

/** Checks a single profile, such as one from a form. Returns the profile, or every problem with its path. */
export function checkProfile(
  input: unknown,
): { readonly profile: Profile } | { readonly problems: readonly Problem[] } {
  const read = profile.safeParse(input);
  return read.success ? { profile: read.data } : { problems: problemsOf(read.error) };
}

/** JSON text of a set, for a file or a workbook. */
export function formatSet(set: InstrumentSet): string {
  return JSON.stringify(set, null, 2);
}
