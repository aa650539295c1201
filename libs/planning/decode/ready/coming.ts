import { intersect, subtract, type Interval, type IntervalSet } from '#calendar/intervals.ts';
import { restOf } from '../../workload/standing.ts';
import { isInOneGo, type Task } from '../../workload/workload.ts';
import { hoursOf } from './people.ts';
import type { Place } from './place.ts';

/** When a task could begin, were what prepares for it done now; minutes. */
export interface Span {
  readonly earliest: number;
  readonly latest: number;
}

/** What is left out keeps nobody. */
export interface Asked {
  /** What keeps somebody. */
  readonly busy?: ((id: string) => Interval[]) | undefined;
  /** When there is room to work at it; null: always. */
  readonly open?: IntervalSet | null;
  /** Whether it does to be there for a minute only. */
  readonly briefly?: boolean;
}

export interface Able {
  readonly id: string;
  readonly learns: boolean;
  /** Minutes at which they could begin. */
  begins(asked: Asked): Interval[];
}

/** The least minutes that what is left of a task takes the quickest crew of the yard, were all there. */
export function quickest(task: Task, { yard }: Pick<Place, 'yard'>): number {
  const { floorMinutes, workMinutes, crewMax, skill } = restOf(task);
  const speeds = yard.people.flatMap(({ abilities }) =>
    abilities.flatMap((ability) => (ability.skill === skill ? [ability.speed] : [])),
  );
  const speed = Math.max(100, ...speeds) * Math.max(1, crewMax);
  return Math.max(floorMinutes, Math.ceil((workMinutes * 100) / speed));
}

/** Builders who have the skill that a task needs. */
export function ableTo(next: Task, { earliest, latest }: Span, place: Place): readonly Able[] {
  const whole = isInOneGo(next) ? Math.max(1, quickest(next, place)) : 1;
  const wanted = [{ start: earliest, end: latest + 1 }];
  return place.yard.people.flatMap((person): Able[] => {
    const level = person.abilities.find(({ skill }) => skill === next.skill)?.level ?? 0;
    if (!person.roles.includes('builder') || level === 0 || level < next.minLevel) return [];
    const begins = ({ busy, open = null, briefly = false }: Asked): Interval[] => {
      const length = briefly ? 1 : whole;
      const looked = [{ start: earliest, end: latest + length }];
      const works = intersect(hoursOf(person, next.breaks, place), looked);
      const free = busy === undefined ? works : subtract(works, busy(person.id));
      const starts = free.map(({ start, end }) => ({ start, end: end - length + 1 }));
      return intersect(
        starts.filter(({ start, end }) => start < end),
        open === null ? wanted : intersect(open, wanted),
      );
    };
    return [{ id: person.id, learns: level === 1, begins }];
  });
}

/** Who is wanted at once: so many, all of these, and unless learners do, one who is none. */
interface Wanted {
  readonly crewMin: number;
  readonly crew: readonly string[];
  readonly learnersDo?: boolean;
}

/** Whether a crew comes together at some minute. */
export function canCome(wanted: Wanted, able: readonly Able[], asked: Asked): boolean {
  const { crewMin, crew, learnersDo = false } = wanted;
  const does = ({ learns }: Able): boolean => learnersDo || !learns;
  if (crewMin <= 1 && crew.length === 0)
    return able.some((one) => does(one) && one.begins(asked).length > 0);
  const changes = able
    .flatMap((one) =>
      one.begins(asked).flatMap(({ start, end }) => [
        { at: start, one, comes: true },
        { at: end, one, comes: false },
      ]),
    )
    // Who has gone at a minute is not there at it.
    .sort((a, b) => a.at - b.at || Number(a.comes) - Number(b.comes));
  const here = new Map<string, Able>();
  return changes.some(({ one, comes }) => {
    if (!comes) {
      here.delete(one.id);
      return false;
    }
    here.set(one.id, one);
    return (
      here.size >= crewMin && crew.every((id) => here.has(id)) && [...here.values()].some(does)
    );
  });
}
