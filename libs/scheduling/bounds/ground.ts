import type { Mode, Problem } from '../model/problem.ts';
import type { Spans } from '../search/crew/compiled/spans.ts';
import { enough, hoursOf, indexed, shared, union, type Flat, type Hours } from './hours.ts';
import { subtract } from '../search/crew/compiled/spans.ts';

/** Builders and resources whose hours a way has to keep. */
export interface Keeping {
  readonly builders: readonly number[] | null;
  readonly mode: Mode;
  /** What it asks of each resource while it works. */
  readonly amounts: ReadonlyMap<number, number>;
}

export const demands = (mode: Mode, resource: number): boolean =>
  mode.demands.some((one) => one.resource === resource && one.amount > 0);

/** What ways are made from, looked up once. */
export interface Ground {
  readonly problem: Problem;
  /** By part: the spaces that it may ever be in. */
  readonly places: readonly ReadonlySet<number>[];
  /** Builders with the same key share their time. */
  crewKey(builders: readonly number[]): string;
  /** Working minutes of work that pauses, with overtime or without. */
  working(keeping: Keeping, overtime: boolean): Spans;
  /** The spans of which one has to hold work in one piece; overtime counts. */
  pieces(keeping: Keeping): Spans;
}

/** When frozen work has each builder. */
export function frozenTime({ activities, builders }: Problem): Flat[] {
  const busy: number[][] = builders.map(() => []);
  for (const { fixed } of activities) {
    if (fixed?.kind !== 'frozen') continue;
    const start = fixed.start ?? 0;
    const finish = fixed.finish ?? start;
    for (const b of fixed.builders ?? [])
      if (!builders[b].unlimited && start < finish) busy[b] = union(busy[b], [start, finish]);
  }
  return busy;
}

function placesOf({ parts, activities }: Problem): Set<number>[] {
  const places = parts.map(({ space }) => new Set([space]));
  for (const activity of activities)
    for (const { movesTo } of activity.modes)
      if (movesTo !== null) for (const part of activity.parts) places[part].add(movesTo);
  return places;
}

/**
 * What frozen work or a shortage takes from splittable work counts
 * as a pause, which is weaker than the rules.
 */
export function groundOf(problem: Problem): Ground {
  const frozen = frozenTime(problem);
  const crews = new Map<string, Hours>();
  const known = new Map<string, Spans>();

  const calendarsOf = (builders: readonly number[]): number[] =>
    [...new Set(builders.map((b) => problem.builders[b].calendar))].sort((x, y) => x - y);
  const taken = (builders: readonly number[]): number[] =>
    builders.filter((b) => frozen[b].length > 0);
  const crewKey = (builders: readonly number[]): string =>
    `${calendarsOf(builders).join()}|${taken(builders).join()}`;

  const crewHours = (builders: readonly number[], overtime: boolean): Hours => {
    const key = `${crewKey(builders)}|${String(overtime)}`;
    const hours = crews.get(key);
    if (hours) return hours;
    const all = calendarsOf(builders).map((c) => hoursOf(problem.calendars[c], overtime));
    const busy = taken(builders).reduce<Flat>((sum, b) => union(sum, frozen[b]), []);
    const made = {
      shifts: subtract(
        shared(
          problem,
          all.map((one) => one.shifts),
        ),
        busy,
      ),
      work: subtract(
        shared(
          problem,
          all.map((one) => one.work),
        ),
        busy,
      ),
    };
    crews.set(key, made);
    return made;
  };

  const spans = (
    { builders, mode, amounts }: Keeping,
    shifts: boolean,
    overtime: boolean,
  ): Spans => {
    const key = [
      builders === null ? '-' : crewKey(builders),
      shifts,
      overtime,
      ...mode.demands.flatMap((one) => (one.amount > 0 ? [one.resource] : [])),
      ...[...amounts].flat(),
    ].join(';');
    const made = known.get(key);
    if (made) return made;
    const lists: Flat[] = [];
    if (builders !== null) {
      const hours = crewHours(builders, overtime);
      lists.push(shifts ? hours.shifts : hours.work);
    }
    for (const [resource, amount] of amounts) {
      const { calendar } = problem.resources[resource];
      // A hold goes on outside the resource's hours.
      if (calendar !== null && demands(mode, resource))
        lists.push(hoursOf(problem.calendars[calendar], false).work);
      lists.push(enough(problem, resource, amount));
    }
    const all = indexed(problem, shared(problem, lists));
    known.set(key, all);
    return all;
  };

  return {
    problem,
    places: placesOf(problem),
    crewKey,
    working: (keeping, overtime) => spans(keeping, false, overtime),
    pieces: (keeping) => spans(keeping, keeping.mode.breaks === 'relieved', true),
  };
}
