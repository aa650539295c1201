import { addDays } from '#calendar/local-date.ts';
import { subtract } from '#calendar/intervals.ts';
import { isoOf, toInstant } from '#calendar/local-time.ts';
import { expandShifts } from '#calendar/shifts/expand.ts';
import type { TaskLife } from '#live/life/life.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { utcOf } from '#persistence/rows.ts';
import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Person } from '#planning/yard/people.ts';
import type { PictureTask, PlanPicture } from './picture.contract.ts';
import { filmUntil, windowsOf } from './picture.film.ts';

export interface Drawn {
  readonly sheet: Pick<PlanSheet, 'tasks' | 'boats' | 'origin' | 'horizon'>;
  readonly state: Pick<YardState, 'yard' | 'workload' | 'lives'>;
  /** Days of the yard. */
  readonly from: string;
  readonly days: number;
  /** Now (ms), where it is the plan that is worked to: its days have what is left from before and what is begun too early. */
  readonly workedAt: number | null;
}

type Picture = Omit<PlanPicture, 'planId' | 'isPublished' | 'at'>;

/** What is to be drawn of a plan in so many days, with how its tasks stand by now. */
export function pictureOf({ sheet, state, from, days, workedAt }: Drawn): Picture {
  const { yard } = state;
  const begins = toInstant(from, '00:00', yard.timeZone);
  const ends = toInstant(addDays(from, days), '00:00', yard.timeZone);
  const [first, last] = [begins * 60_000, ends * 60_000];
  const isNow = workedAt !== null && first <= workedAt && workedAt < last;
  const tasks = tasksIn(sheet, state, { begins: first, ends: last, isNow });
  return {
    from,
    days,
    begins: isoOf(begins),
    ends: isoOf(ends),
    planFrom: sheet.origin.at,
    planUntil: sheet.horizon.at,
    tasks: tasks.map(({ drawn }) => drawn),
    people: peopleOf(yard, tasks, { from: isoOf(begins), minutes: ends - begins }),
    spaces: spacesOf(yard, tasks),
    boats: sheet.boats.map((boat) => ({
      boatId: boat.boatId,
      boat: boat.boat,
      refitId: boat.refitId,
      refit: boat.refit,
      promised: boat.promised?.at ?? null,
      finish: boat.finish.at,
      lateMinutes: boat.lateMinutes,
      chain: boat.chain.map(({ fromTask, toTask, until, text }) => ({
        fromTask,
        toTask,
        until: until.at,
        text,
      })),
    })),
  };
}

interface Shown {
  readonly planned: SheetTask;
  readonly drawn: PictureTask;
}

const isBegun = ({ state }: PictureTask['now']): boolean =>
  state === 'working' || state === 'paused';
const isLeft = (now: PictureTask['now']): boolean =>
  isBegun(now) || now.state === 'waiting' || now.state === 'claimed';

function tasksIn(
  sheet: Drawn['sheet'],
  { workload, lives }: Drawn['state'],
  {
    begins,
    ends,
    isNow,
  }: { readonly begins: number; readonly ends: number; readonly isNow: boolean },
): Shown[] {
  const startOf = new Map(sheet.tasks.map(({ id, start }) => [id, start.at]));
  const byId = new Map(workload.tasks.map((task) => [task.id, task]));
  return sheet.tasks.flatMap((planned) => {
    const isLater = Date.parse(planned.start.at) >= ends;
    if (isLater && !isNow) return [];
    const windows = windowsOf(planned, startOf);
    const until = filmUntil(planned, windows, sheet.horizon);
    const last = Math.max(...[planned.finish.at, until ?? ''].map((at) => Date.parse(at) || 0));
    const isEarlier = last <= begins;
    if (isEarlier && !isNow) return [];
    const task = byId.get(planned.id);
    const one = drawn(planned, windows, until, task, lives.get(planned.id));
    const isShown = isLater ? isBegun(one.now) : !isEarlier || isLeft(one.now);
    return isShown ? [{ planned, drawn: one }] : [];
  });
}

const drawn = (
  planned: SheetTask,
  windows: PictureTask['windows'],
  until: string | null,
  task: Task | undefined,
  life: TaskLife | undefined,
): PictureTask => ({
  id: planned.id,
  name: planned.name,
  refitId: planned.refitId,
  partId: planned.partId,
  part: planned.part,
  spaceId: planned.spaceId,
  air: planned.air,
  skill: planned.skill,
  material: planned.material,
  start: planned.start.at,
  finish: planned.finish.at,
  segments: planned.segments.map(({ start, finish }) => ({ from: start.at, until: finish.at })),
  crew: planned.crew.map(({ personId }) => personId),
  cleanedDown: planned.cleanedDown?.at ?? null,
  floatMinutes: planned.floatMinutes,
  film: planned.film.map(({ milestone, when }) => ({ milestone, at: when?.at ?? null })),
  filmUntil: until,
  windows,
  warnings: [...planned.warnings],
  fixedStart: task?.fixedStart ?? null,
  crewIsSet: (life?.setCrew ?? (task?.state === 'waiting' ? task.crew : [])).length > 0,
  now: nowOf(task, life),
});

/** A task that the yard does not have any more is not worked on either. */
function nowOf(task: Task | undefined, life: TaskLife | undefined): PictureTask['now'] {
  if (life === undefined) {
    const { state = 'dropped', crew = [], startedAt = null, finishedAt = null } = task ?? {};
    const hasBegun = state !== 'waiting';
    return {
      state,
      crew: hasBegun ? [...crew] : [],
      startedAt: hasBegun ? startedAt : null,
      finishedAt: state === 'done' || state === 'redo' ? finishedAt : null,
    };
  }
  const { claim } = life;
  const isTaken = claim?.status === 'open' && life.state !== 'done' && life.state !== 'redo';
  const state = isTaken ? 'claimed' : life.state;
  const isOver = state === 'done' || state === 'redo';
  return {
    state,
    crew: claim === null ? (state === 'waiting' ? [] : [...life.crew]) : [...claim.crew],
    startedAt: life.startedAt && utcOf(life.startedAt),
    finishedAt: isOver ? life.finishedAt && utcOf(life.finishedAt) : null,
  };
}

function peopleOf(
  yard: YardState['yard'],
  tasks: readonly Shown[],
  { from, minutes }: { readonly from: string; readonly minutes: number },
): PlanPicture['people'] {
  const names = new Map(
    tasks.flatMap(({ planned }) => planned.crew.map(({ personId, name }) => [personId, name])),
  );
  for (const { now } of tasks.map(({ drawn: one }) => one)) {
    for (const id of now.crew) if (!names.has(id)) names.set(id, id);
  }
  const known = yard.people.filter(({ id, roles }) => roles.includes('builder') || names.has(id));
  for (const { id } of known) names.delete(id);
  const hoursOf = ({ shifts, exceptions }: Person): PlanPicture['people'][number]['hours'] => {
    const worked = expandShifts(shifts, exceptions, yard.timeZone, from, minutes);
    const at = (minute: number): string =>
      new Date(Date.parse(from) + minute * 60_000).toISOString();
    return subtract(worked.shifts, worked.breaks).map(({ start, end }) => ({
      from: at(start),
      until: at(end),
    }));
  };
  return [
    ...known.map((person) => ({ id: person.id, name: person.name, hours: hoursOf(person) })),
    // Of an older plan: whoever is not in the yard any more.
    ...[...names].map(([id, name]) => ({ id, name, hours: [] })),
  ];
}

function spacesOf(yard: YardState['yard'], tasks: readonly Shown[]): PlanPicture['spaces'] {
  const gone = new Map(tasks.map(({ planned: { spaceId, space } }) => [spaceId, space]));
  for (const { id } of yard.spaces) gone.delete(id);
  return [
    ...yard.spaces.map(({ id, name, room, dustReaches }) => ({
      id,
      name,
      room,
      dustReaches: [...dustReaches],
    })),
    ...[...gone].map(([id, name]) => ({ id, name, room: null, dustReaches: [] })),
  ];
}
