/** What one unit (a file, mostly) came to; plain JSON, so that a run can be continued later. */
export type Row = Readonly<Record<string, string | number | boolean | null>>;

/** One figure of a summary, with what was aimed for where something was. */
export interface Figure {
  readonly what: string;
  readonly value: number | string;
  readonly target?: string;
  readonly met?: boolean;
}

/** A named measurement made of units that can be run one by one. */
export interface Bench {
  readonly name: string;
  readonly about: string;
  /** Whether it reads the public benchmark files, which may be absent. */
  readonly publicFiles: boolean;
  /** Globs of files beside the engine that its rows depend on. */
  readonly measures?: readonly string[];
  /** Names of the units, in order. */
  units(): readonly string[];
  run(unit: string): Promise<Row>;
  summarise(rows: readonly Row[]): readonly Figure[];
}

/** The q-quantile (nearest rank) of numbers; NaN of none. */
export function quantile(values: readonly number[], q: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted.length === 0 ? NaN : sorted[Math.max(0, Math.ceil(q * sorted.length) - 1)];
}

/** For display: three significant figures. */
export const short = (value: number): number => Number(value.toPrecision(3));
