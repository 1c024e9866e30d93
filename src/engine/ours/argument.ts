import type { Values, Scalar } from "../values.js";

/** An argument of one of our functions, with its cells already read; undefined if omitted. */
export type ReadArgument = Scalar | Values | undefined;
