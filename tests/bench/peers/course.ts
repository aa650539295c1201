/** A solve as it went; moments in seconds from the start of its process. */
export interface Told {
  /** Until the solver was loaded (and, for this engine, the problem read). */
  readonly startSeconds: number;
  /** Flattening after that; null: it was not over in time. */
  readonly flatSeconds: number | null;
  readonly found: readonly { readonly at: number; readonly value: number }[];
  readonly proved: 'optimal' | 'infeasible' | null;
  readonly provedAt: number | null;
}

/**
 * The same in figures: `first` and `proof` in seconds from the start of the process, the best
 * values so many seconds after start-up and flattening, which is to a peer's favour.
 */
export interface Course {
  readonly start: number;
  readonly flat: number | null;
  readonly first: number | null;
  readonly after1: number | null;
  readonly after10: number | null;
  readonly after60: number | null;
  readonly best: number | null;
  readonly proved: string | null;
  readonly proof: number | null;
}

export const MARKS = [1, 10, 60] as const;

export function courseOf({ startSeconds, flatSeconds, found, proved, provedAt }: Told): Course {
  const begins = flatSeconds === null ? Infinity : startSeconds + flatSeconds;
  const after = (mark: number): number | null =>
    found.findLast(({ at }) => at <= begins + mark)?.value ?? null;
  const [after1, after10, after60] = MARKS.map(after);
  return {
    start: startSeconds,
    flat: flatSeconds,
    first: found.at(0)?.at ?? null,
    after1,
    after10,
    after60,
    best: found.at(-1)?.value ?? null,
    proved,
    proof: proved === null ? null : provedAt,
  };
}
