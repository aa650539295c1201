import { normalise, type Interval } from '#calendar/intervals.ts';
import { anchorsOf } from '../../compile/work/lags.ts';
import { isToPlan } from '../../workload/standing.ts';
import { isInOneGo, type Task, type TaskLink } from '../../workload/workload.ts';
import { timeOf } from '../reading/time-of.ts';
import type { PlanSheet } from '../sheet.ts';
import { ableTo, canCome, quickest, type Span } from './coming.ts';
import { plannedFor, SIGHT } from './people.ts';
import type { Place } from './place.ts';
import { whyNobody } from './why-nobody.ts';

interface Time extends Span {
  /** When the surface is stale, by the side of the window that presses most. */
  readonly stale: number;
}

/**
 * When the next task could begin, were this one done now. Of work that was put aside the window runs from
 * when it was begun first. Null: beyond sight, or not known before it is done.
 */
function timeFor(link: TaskLink, task: Task, next: Task, place: Place): Time | null {
  const { opens, closes, sweep } = link;
  const { now, frame } = place;
  if (closes?.kind !== 'after') return null;
  const at = { start: timeOf(task, 'start', frame) ?? now, finish: now + quickest(task, place) };
  const wait = opens?.kind === 'after' ? opens.minutes : 0;
  const from = anchorsOf(sweep, 'open').flatMap(([anchor, to]) =>
    to === 'start' ? [at[anchor] + wait] : [],
  );
  const [first] = anchorsOf(sweep, 'close')
    .map(([anchor, to]) => {
      const stale = at[anchor] + closes.minutes;
      return { stale, latest: stale - (to === 'finish' ? quickest(next, place) : 0) };
    })
    .sort((a, b) => a.latest - b.latest);
  return first.latest > now + SIGHT ? null : { ...first, earliest: Math.max(now, ...from) };
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
  const length = Math.max(1, quickest(next, place));
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
 * Sentences for dry work that prepares for what has to follow before its surface is stale, where there
 * is no time for that, or nobody will be there. `out`: the links from it.
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
    const time = timeFor(link, task, next, place);
    if (time === null) return [];
    const { earliest, latest, stale } = time;
    const words = (minute: number): string => place.at.words(Math.floor(minute));
    if (latest < earliest) {
      const is = stale <= place.now ? 'was' : 'is';
      const could = stale < earliest ? 'begin' : 'be done';
      return [
        `Done now, it leads nowhere: its surface ${is} stale at ${words(stale)}, before “${next.name}” could ${could}.`,
      ];
    }
    const able = ableTo(next, time, place);
    const open = place.openSpans(place.spaces.get(next.space)?.hours ?? null, earliest);
    const asked = { open, busy: busyWith(task, next, time, sheet, place) };
    if (canCome(next, able, asked)) return [];
    const why = whyNobody({ next, able, asked, place });
    return [
      `Done now, it leads nowhere: “${next.name}” has to begin by ${words(latest)}, and ${why}.`,
    ];
  });
}
