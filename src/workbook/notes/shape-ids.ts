// Ids of shapes come in blocks of 1,024, and no two drawings of a workbook may have a block in common. A drawing lists its blocks in
// an element "idmap".

const idsPerBlock = 1024;
const idmap = /(<(?:\w+:)?idmap\b[^>]*?\bdata=["'])([^"']*)/;

/** The blocks that a drawing lists; none where it has no list. */
export function blocksOf(vml: string): number[] {
  const listed = idmap.exec(vml)?.[2] ?? "";
  return listed
    .split(",")
    .map(Number)
    .filter((block) => Number.isInteger(block) && block > 0);
}

/** The first block that is free, counting from the one wanted. */
export function freeBlock(wanted: number, taken: ReadonlySet<number>): number {
  let block = wanted;
  while (taken.has(block)) block++;
  return block;
}

/**
 * Ids for new shapes of a drawing, from its blocks and from further free ones.
 *
 * @param blocks of the drawing; grows
 * @param taken blocks of other drawings
 * @param used numbers that shapes of the drawing have
 */
export function* newIds(
  blocks: number[],
  taken: ReadonlySet<number>,
  used: (number: number) => boolean,
): Generator<number, never, undefined> {
  for (let i = 0; ; i++) {
    const block = blocks[i] ?? freeBlock(Math.max(0, ...blocks, ...taken) + 1, taken);
    blocks[i] = block;
    for (let n = 1; n < idsPerBlock; n++) if (!used(block * idsPerBlock + n)) yield block * idsPerBlock + n;
  }
}

/** The element that lists blocks, for a drawing without one. The prefixes "v" and "o" must be declared. */
export const shapeLayout = (blocks: readonly number[]): string =>
  `<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="${blocks.join(",")}"/></o:shapelayout>`;

/** A drawing with another list of blocks in the place of the one that it has. */
export const withBlocks = (vml: string, blocks: readonly number[]): string =>
  vml.replace(idmap, (_, before: string) => before + blocks.join(","));
