/** Workbooks that ship with the desk, by the name in the page's address: "?file=season.xlsx". */
export const examples = {
  season: "season.xlsx",
  fermentation: "fermentation.xlsx",
  starter: "starter.xlsx",
} as const;

/** @returns undefined unless such a workbook ships with the desk */
export function exampleNamed(name: string): string | undefined {
  return Object.values(examples).find((example) => example === name || `examples/${example}` === name);
}

export async function readExample(name: string): Promise<Uint8Array> {
  const answer = await fetch(`examples/${name}`);
  if (!answer.ok) throw new Error(`The example ${name} did not load. Check the connection.`);
  return new Uint8Array(await answer.arrayBuffer());
}
