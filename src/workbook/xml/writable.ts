/** A thing still in the making, whose fields are read-only once it is handed on. */
export type Writable<T> = { -readonly [K in keyof T]: T[K] };
