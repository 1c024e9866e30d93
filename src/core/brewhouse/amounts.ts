import type { Range } from "../refusal.js";

/** Any amount that a cell may hold, wide enough for a thimble and for a tank farm in any unit. */
const most = 1e9;

export const volumeRange: Range = { of: "volume", min: 0, max: most, unit: "" };
export const massRange: Range = { of: "mass", min: 0, max: most, unit: "" };
