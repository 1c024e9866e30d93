/** The room of src that is gone through, "" for the core and the functions. */
export const room = process.env.ROOM ?? "";

/** Folders of src that are changed. */
export const sources = room === "" ? ["core", "functions"] : [room];

/** Folders of tests that must notice: each folder of src is held by its own. */
export const tests = [...new Set(sources.map((folder) => folder.split("/")[0] ?? folder))];
