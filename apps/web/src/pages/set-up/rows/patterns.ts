/** A span of the wall clock on one day; where `to` is not after `from`, it ends the next day. */
interface Span {
  readonly from: string;
  readonly to: string;
  readonly breaks?: readonly { readonly from: string; readonly to: string }[];
}

/** As the service has it: one for each day. */
export type WeekSpan<S extends Span> = S & { readonly weekday: number };
/** As people think of it: the same hours on several days. */
export type Pattern<S extends Span> = S & { readonly days: readonly number[] };

const hoursOf = ({ from, to, breaks }: Span): string => JSON.stringify([from, to, breaks ?? []]);

/** Same hours together, in the order in which their first day comes. */
export function patternsOf<S extends Span>(
  spans: readonly WeekSpan<S>[],
): readonly Pattern<WeekSpan<S>>[] {
  const groups = Map.groupBy(spans, hoursOf);
  return [...groups.values()].map((group) => ({
    ...group[0],
    days: [...new Set(group.map(({ weekday }) => weekday))].sort((a, b) => a - b),
  }));
}

const minutesOf = (time: string): number => {
  const [hours, minutes] = time.split(':').map(Number);
  return hours * 60 + minutes;
};

/** Minutes from one wall time to another, over midnight where it does not come after. */
function between(from: string, to: string): number {
  const length = minutesOf(to) - minutesOf(from);
  return length > 0 ? length : length + 1440;
}

export const endsNextDay = ({ from, to }: Span): boolean =>
  from !== '' && to !== '' && minutesOf(to) <= minutesOf(from);

/** Working hours of a week, breaks left out; spans that are not filled in count nothing. */
export function weekHours(spans: readonly Span[]): number {
  const filled = spans.filter(({ from, to }) => from !== '' && to !== '');
  const minutes = filled.reduce((sum, { from, to, breaks }) => {
    const pauses = (breaks ?? []).filter((pause) => pause.from !== '' && pause.to !== '');
    const rest = pauses.reduce((all, pause) => all + between(pause.from, pause.to), 0);
    return sum + Math.max(0, between(from, to) - rest);
  }, 0);
  return minutes / 60;
}

/** Runs of days: `[1, 2, 3, 6]` is `[[1, 3], [6, 6]]`. */
export function runsOf(days: readonly number[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const day of days) {
    const last = runs.at(-1);
    if (last?.[1] === day - 1) last[1] = day;
    else runs.push([day, day]);
  }
  return runs;
}
