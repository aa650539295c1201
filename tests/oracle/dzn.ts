/** A value of MiniZinc's data language. */
export type Value = number | boolean | ReadonlySet<number> | readonly Value[];

function write(value: Value): string {
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  const items = [...value].map(write).join(', ');
  return value instanceof Set ? `{${items}}` : `[${items}]`;
}

/** A table whose index sets are given from the first to the last index, e.g. [[1, 3], [0, 9]]. */
export interface Table {
  readonly ranges: readonly (readonly [number, number])[];
  readonly values: readonly Value[];
}

/** Rows of a table, numbered from 1 on or from `first` on, the columns from `column` on. */
export function rows(
  values: readonly (readonly Value[])[],
  width: number,
  first = 1,
  column = 1,
): Table {
  return {
    ranges: [
      [first, first + values.length - 1],
      [column, column + width - 1],
    ],
    values: values.flat(),
  };
}

const isTable = (value: Value | Table): value is Table =>
  typeof value === 'object' && 'ranges' in value;

/** Lines of data; a plain list is numbered from 1 on. */
export function dzn(data: Readonly<Record<string, Value | Table>>): string {
  const lines = Object.entries(data).map(([name, value]) => {
    if (!isTable(value)) return `${name} = ${write(value)};`;
    const ranges = value.ranges.map(([first, last]) => `${first}..${last}`).join(', ');
    return `${name} = array${value.ranges.length}d(${ranges}, ${write(value.values)});`;
  });
  return `${lines.join('\n')}\n`;
}
