import { expect } from "vitest";

/** Stands for a number within half of the last of so many decimals, inside a value that is compared as a whole. */
export const near = (value: number, decimals = 9): number => expect.closeTo(value, decimals) as number;
