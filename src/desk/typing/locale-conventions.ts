/** Conventions for dates and numbers in a locale. */
export interface LocaleConventions {
  /** Decimal separator. A point is always accepted as well, since the sheet itself shows numbers with one. */
  readonly decimal: string;
  /** Thousands separators; several for kinds of spaces. */
  readonly groups: readonly string[];
  /** Two digits to a group above the thousands: 12,34,567. */
  readonly groupsInPairs: boolean;
  /** Order of full dates: "dmy", "mdy" or "ymd". */
  readonly order: string;
  /** Order without the year: "dm" or "md". */
  readonly shortOrder: string;
  /** Between day and month. */
  readonly separator: string;
  /** Names of months in lower case, and their numbers from 1. */
  readonly months: ReadonlyMap<string, number>;
  /** For dates without a year. */
  readonly year: number;
}

const plain = { calendar: "gregory", numberingSystem: "latn" } as const;
const blanks = [" ", "\u00a0", "\u202f"];

/**
 * @param locale as a browser names it: "en-GB"
 * @param today for dates without a year
 */
export function conventionsOf(locale: string, today: Date): LocaleConventions {
  const parts = (options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(locale, { ...plain, ...options }).formatToParts(today);
  const order = (options: Intl.DateTimeFormatOptions): string =>
    parts(options)
      .filter(({ type }) => ["day", "month", "year"].includes(type))
      .map(({ type }) => type.charAt(0))
      .join("");
  const full = { day: "numeric", month: "numeric", year: "numeric" } as const;
  const short = { day: "numeric", month: "numeric" } as const;
  const number = new Intl.NumberFormat(locale, { numberingSystem: "latn" }).formatToParts(12_345_678.5);
  const sign = (type: string): string => number.find((part) => part.type === type)?.value ?? "";
  const group = sign("group");
  return {
    decimal: sign("decimal") || ".",
    groups: blanks.includes(group) ? blanks : ["'", "’"].includes(group) ? ["'", "’"] : [group],
    groupsInPairs: number.filter(({ type }) => type === "integer")[1]?.value.length === 2,
    order: order(full),
    shortOrder: order(short),
    separator:
      parts(full)
        .find(({ type }) => type === "literal")
        ?.value.trim()
        .charAt(0) ?? "",
    months: new Map([...monthNames(locale), ...monthNames("en"), ["sept", 9]]),
    year: today.getFullYear(),
  };
}

function monthNames(locale: string): [string, number][] {
  return Array.from({ length: 12 }, (_, month) => month)
    .flatMap((month) =>
      (["long", "short"] as const).map((length): [string, number] => {
        const format = new Intl.DateTimeFormat(locale, {
          ...plain,
          month: length,
          day: "numeric",
          timeZone: "UTC",
        });
        const parts = format.formatToParts(Date.UTC(2026, month, 15));
        const name = parts.find(({ type }) => type === "month")?.value ?? "";
        return [name.toLowerCase().replace(/\.$/, ""), month + 1];
      }),
    )
    .filter(([name]) => /^\p{L}{2,}$/u.test(name));
}
