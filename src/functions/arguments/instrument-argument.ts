import { kindOf } from "../../instruments/describe.js";
import { findInstrument } from "../../instruments/find.js";
import type { Kind, Profile } from "../../instruments/schema.js";
import { readName, type ArgumentSpec, type Plain } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { instruments, missInstruments, seekInVain } from "../contract/instruments-port.js";
import { instrumentsNotRead, noSuchInstrument, wrongKind } from "../contract/messages.js";

type ProfileOf<K extends Kind> = Extract<Profile, { kind: K }>;

export const article = (kind: Kind): string => `a ${kindOf({ kind })}`;

/**
 * The instrument named by a cell.
 *
 * @returns undefined if the cell is empty
 * @throws CellError #N/A if the workbook has none of that name
 */
export function readAnyInstrument(content: Plain): Profile | undefined {
  const name = readName(content, "instrument");
  if (name === undefined) return undefined;
  const set = instruments();
  const found = set && findInstrument(set, name);
  if (!found) seekInVain(name);
  if (!set) throw new CellError("#N/A", instrumentsNotRead(missInstruments()));
  if (!found)
    throw new CellError(
      "#N/A",
      noSuchInstrument(
        name,
        set.instruments.map((instrument) => instrument.name),
      ),
    );
  return found;
}

/**
 * The instrument of a given kind named by a cell.
 *
 * @returns undefined if the cell is empty
 * @throws CellError #N/A if the workbook has none of that name, #VALUE! if it is of another kind
 */
export function readInstrument<K extends Kind>(content: Plain, kind: K): ProfileOf<K> | undefined {
  const found = readAnyInstrument(content);
  if (found && !isKind(found, kind))
    throw new CellError("#VALUE!", wrongKind(found.name, article(found.kind), article(kind)));
  return found;
}

function isKind<K extends Kind>(profile: Profile, kind: K): profile is ProfileOf<K> {
  return profile.kind === kind;
}

/** An argument that may name an instrument. */
export function instrument<K extends Kind>(
  kind: K,
  description: string,
): ArgumentSpec<ProfileOf<K> | undefined> {
  return {
    label: "instrument",
    description,
    optional: true,
    namesInstrument: true,
    instrumentKind: kind,
    namedThroughout: true,
    read: (content) => readInstrument(content, kind),
  };
}
