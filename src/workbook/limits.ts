// What we are willing to open. A workbook arrives by mail from anyone, so each guard acts before memory is filled.

/** Size of a file in bytes. No real workbook is larger, so a larger file is not read. */
export const fileLimit = 256 * 1024 * 1024;

/** All parts together, unpacked, in bytes. */
export const unpackedLimit = 512 * 1024 * 1024;

/** One part read as text, in bytes: a JavaScript string cannot be much longer. */
export const textLimit = 256 * 1024 * 1024;

/** Unpacked size over file size. The most repetitive sheets stay below 300; the limit of deflate itself is 1032. */
export const ratioLimit = 400;

/**
 * Below this unpacked size a high ratio does no harm and occurs in honest files: a blank sheet with many styled rows.
 */
export const ratioAppliesFrom = 64 * 1024 * 1024;

/** The most bytes that one byte of deflated data can become. */
export const deflateRatio = 1032;

/** Depth of nested elements. A sheet needs about 15. */
export const depthLimit = 64;

/** Attributes of one element; they are compared with each other. The root of a sheet has about 20. */
export const attributeLimit = 500;
