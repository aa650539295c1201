import {
  intersect,
  normalise,
  subtract,
  type Interval,
  type IntervalSet,
} from '#calendar/intervals.ts';
import { anchorsOf } from '../../compile/work/lags.ts';
import { isToPlan } from '../../workload/standing.ts';
import { isInOneGo, type Task, type TaskLink } from '../../workload/workload.ts';
import type { Person } from '../../yard/people.ts';
import { timeOf } from '../reading/time-of.ts';
import type { PlanSheet } from '../sheet.ts';
import { hoursOf, plannedFor, SIGHT } from './people.ts';
import type { Place } from './place.ts';
import { briefest } from './windows.ts';

/** When the next task could begin, were this one done now; minutes. */
interface Span {
  readonly earliest: number;
  readonly latest: number;
}

/** Null: it cannot be said, or is no matter of who comes. */
function spanOf(link: TaskLink, task: Task, next: Task, { now, frame }: Place): Span | null {
  const { opens, closes, sweep } = link;
  if (closes?.kind !== 'after') return null;
  const at = { start: timeOf(task, 'start', frame) ?? now, finish: now + briefest(task) };
  const wait = opens?.kind === 'after' ? opens.minutes : 0;
  const from = anchorsOf(sweep, 'open').flatMap(([anchor, to]) =>
    to === 'start' ? [at[anchor] + wait] : [],
  );
  const by = anchorsOf(sweep, 'close').map(
    ([anchor, to]) => at[anchor] + closes.minutes - (to === 'finish' ? briefest(next) : 0),
  );
  const span = { earliest: Math.max(now, ...from), latest: Math.min(...by) };
  return span.latest < span.earliest || span.latest > now + SIGHT ? null : span;
}

const levelOf = ({ abilities }: Person, skill: string | null): number =>
  abilities.find((ability) => ability.skill === skill)?.level ?? 0;

interface Asked {
  /** What keeps somebody; left out: nothing does. */
  readonly busy?: (id: string) => Interval[];
  /** When there is room to work at it; null: always. */
  readonly open: IntervalSet | null;
}

interface Able {
  readonly id: string;
  readonly learns: boolean;
  /** Minutes at which they could begin. */
  readonly begins: () => Interval[];
}

/** Whether a crew for it comes together at some minute of the span. */
function canCome(next: Task, span: Span, place: Place, { busy, open }: Asked): boolean {
  const { earliest, latest } = span;
  const length = isInOneGo(next) ? Math.max(1, briefest(next)) : 1;
  const looked = [{ start: earliest, end: latest + length }];
  const wanted = [{ start: earliest, end: latest + 1 }];
  const minutes = open === null ? wanted : intersect(open, wanted);
  const able = place.yard.people.flatMap((person): Able[] => {
    const level = levelOf(person, next.skill);
    if (!person.roles.includes('builder') || level === 0 || level < next.minLevel) return [];
    const begins = (): Interval[] => {
      const works = intersect(hoursOf(person, next.breaks, place), looked);
      const free = busy === undefined ? works : subtract(works, busy(person.id));
      const starts = free.map(({ start, end }) => ({ start, end: end - length + 1 }));
      return intersect(
        starts.filter(({ start, end }) => start < end),
        minutes,
      );
    };
    return [{ id: person.id, learns: level === 1, begins }];
  });
  if (next.crewMin <= 1 && next.crew.length === 0)
    return able.some(({ learns, begins }) => !learns && begins().length > 0);
  return comeTogether(next, able);
}

/** At one minute so many as it takes, one of them no learner, and all whom the foreman has set. */
function comeTogether({ crewMin, crew }: Task, able: readonly Able[]): boolean {
  const changes = able
    .flatMap((one) =>
      one.begins().flatMap(({ start, end }) => [
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
      here.size >= crewMin &&
      crew.every((id) => here.has(id)) &&
      [...here.values()].some(({ learns }) => !learns)
    );
  });
}

/**
 * What somebody has in hand that cannot be put aside, and what else they are planned for; not of whoever
 * is planned to come for the next task anyway.
 */
function busyWith(
  task: Task,
  next: Task,
  { earliest, latest }: Span,
  sheet: PlanSheet | null,
  place: Place,
): (id: string) => Interval[] {
  const { working, frame, now, rows, yard } = place;
  const length = Math.max(1, briefest(next));
  const planned = sheet === null ? null : plannedFor(sheet, yard, frame);
  const coming = planned?.tasks.get(next.id);
  const expected = new Set(coming !== undefined && coming.start <= latest ? coming.crew : []);
  return (id) => {
    const inHand = working.flatMap((one) => {
      const end = one.finishedAt === null ? now : frame.minuteOf(one.finishedAt);
      return one.crew.includes(id) && isInOneGo(one) && end > now ? [{ start: now, end }] : [];
    });
    if (planned === null || expected.has(id)) return normalise(inHand);
    const other = (planned.people.get(id) ?? []).filter(({ taskId, start, end }) => {
      if (end <= earliest || start >= latest + length) return false;
      if (taskId === task.id || taskId === next.id) return false;
      const known = rows.tasks.get(taskId);
      return known !== undefined && isToPlan(known);
    });
    return normalise([...inHand, ...other]);
  };
}

/**
 * Sentences for dry work that prepares for what has to follow before its surface is stale, where nobody
 * will be there for that. `out`: the links from it.
 */
export function deadEnds(
  task: Task,
  out: readonly TaskLink[],
  sheet: PlanSheet | null,
  place: Place,
): string[] {
  // A film goes on to cure, and can be prepared later.
  if (task.material !== null) return [];
  return out.flatMap((link) => {
    const next = place.rows.tasks.get(link.to);
    if (next?.state !== 'waiting' || next.skill === null) return [];
    const span = spanOf(link, task, next, place);
    if (span === null) return [];
    const space = place.spaces.get(next.space);
    const open = place.openSpans(space?.hours ?? null, span.earliest);
    const busy = busyWith(task, next, span, sheet, place);
    if (canCome(next, span, place, { busy, open })) return [];
    const by = place.at.words(Math.floor(span.latest));
    const why = canCome(next, span, place, { open })
      ? 'those who can do it have other work until then'
      : canCome(next, span, place, { open: null })
        ? `${space?.name ?? next.space} is shut when those who can do it are at work`
        : `${next.crewMin > 1 ? 'too few' : 'none'} of those who can do it are at work until then`;
    return [`Done now, it leads nowhere: “${next.name}” has to begin by ${by}, and ${why}.`];
  });
}
