/** What one unit (a file, mostly) came to; plain JSON, so that a run can be continued later. */
export type Row = Readonly<Record<string, string | number | boolean | null>>;

/** One figure of a summary, with what was aimed for where something was. */
export interface Figure {
  readonly what: string;
  readonly value: number | string;
  readonly target?: string;
  readonly met?: boolean;
}

/** Rows for the results page, beside the figures. */
export interface Table {
  readonly head: readonly string[];
  readonly lines: readonly (readonly string[])[];
}

/** A named measurement made of units that can be run one by one. */
export interface Bench {
  readonly name: string;
  readonly about: string;
  /** Whether it reads the public benchmark files, which may be absent. */
  readonly publicFiles: boolean;
  /** Globs of files beside the engine that its rows depend on. */
  readonly measures?: readonly string[];
  /** Longer than one sitting: rows of an unfinished run are kept with the code, for the next. */
  readonly isLong?: boolean;
  /** The most seconds that one unit takes: none is begun that could end after the piece does. */
  readonly longest: number;
  /** Names of the units in the order in which they are run: each beginning of it is a fair sample. */
  units(): readonly string[];
  /** Before the first unit of a process, to warm it up where that is what is measured. */
  prepare?(): void | Promise<void>;
  /**
   * `most`: a limit on the seconds of each solve beneath the bench's own; Infinity: none. `known`:
   * the rows that there are already, by unit.
   */
  run(unit: string, most: number, known: ReadonlyMap<string, Row>): Promise<Row>;
  summarise(rows: readonly Row[]): readonly Figure[];
  table?(rows: readonly Row[]): Table;
}

/** The q-quantile (nearest rank) of numbers; NaN of none. */
export function quantile(values: readonly number[], q: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted.length === 0 ? NaN : sorted[Math.max(0, Math.ceil(q * sorted.length) - 1)];
}

/** NaN of none. */
export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** For display: three significant figures, a dash where there is no number. */
export const told = (value: Row[string] | undefined): string =>
  typeof value === 'number' && !Number.isNaN(value) ? String(short(value)) : '-';

/** Three significant figures. */
export const short = (value: number): number => Number(value.toPrecision(3));

export const count = (rows: readonly Row[], test: (row: Row) => boolean): number =>
  rows.filter(test).length;

/** The numbers of a column, rows that have none left out. */
export const column = (rows: readonly Row[], key: string): number[] =>
  rows.flatMap((row) => (typeof row[key] === 'number' ? [row[key]] : []));

export const atLeast = (what: string, value: number, target: number, words?: string): Figure => ({
  what,
  value,
  target: words ?? `at least ${target}`,
  met: value >= target,
});

export const atMost = (what: string, value: number, target: number, words?: string): Figure => ({
  what,
  value: Number.isNaN(value) ? '-' : short(value),
  target: words ?? `at most ${target}`,
  met: value <= target,
});

export const none = (what: string, value: number): Figure => ({
  what,
  value,
  target: '0',
  met: value === 0,
});
