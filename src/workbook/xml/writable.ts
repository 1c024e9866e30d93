/** An object under construction, whose fields are read-only once it is passed on. */
export type Writable<T> = { -readonly [K in keyof T]: T[K] };
