import type { Range } from "../refusal.js";

/** Wide enough for a thimble and a tank farm in any unit. */
const most = 1e9;

export const volumeRange: Range = { of: "volume", min: 0, max: most, unit: "" };
export const massRange: Range = { of: "mass", min: 0, max: most, unit: "" };
