import type { Values, Scalar } from "../values.js";

/** An argument of one of our functions, its cells already read; undefined was left out. */
export type ReadArgument = Scalar | Values | undefined;
