import { type Reason, Refusal } from "../../src/core/refusal.js";

/** Why the core refuses; an error where it answers, or fails in another way. */
export function reasonOf(work: () => unknown): Reason {
  try {
    work();
  } catch (error) {
    if (error instanceof Refusal) return error.reason;
    throw error;
  }
  throw new Error("it was answered");
}
