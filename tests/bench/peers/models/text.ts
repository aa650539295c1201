/** A list of MiniZinc. */
export const list = (values: Iterable<number | string>): string => `[${[...values].join(', ')}]`;

/** A table of MiniZinc with rows from 1 on; `column` is the number of the first column. */
export function table(rows: readonly (readonly number[])[], column = 1): string {
  const width = rows.at(0)?.length ?? 0;
  return `array2d(1..${rows.length}, ${column}..${column + width - 1}, ${list(rows.flat())})`;
}
