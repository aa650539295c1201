import { addDays, type LocalDate } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import type { TaskState } from '#planning/workload/workload.ts';
import type { KeyedEntry } from './entry.ts';

/** A task as its owner may know it. */
export interface OwnTask {
  readonly id: string;
  readonly name: string;
  readonly partId: string;
  readonly state: TaskState | 'dropped';
  /** Null of a hold point: somebody's word. */
  readonly skillId: string | null;
  readonly startedAt: Date | null;
  readonly finishedAt: Date | null;
  /** The task that it does again. */
  readonly replacesId: string | null;
}

export interface OwnRefit {
  readonly id: string;
  readonly name: string;
  readonly boat: string;
  readonly promised: Date | null;
  readonly parts: readonly { readonly id: string; readonly name: string }[];
  readonly tasks: readonly OwnTask[];
}

export interface OwnGround {
  readonly zone: string;
  readonly refits: readonly OwnRefit[];
  /** What the published plan says of the own boats; null without one. */
  readonly sheet: Pick<PlanSheet, 'boats' | 'tasks'> | null;
}

interface Told {
  readonly refit: OwnRefit;
  /** Without what was dropped. */
  readonly tasks: readonly OwnTask[];
  readonly planned: ReadonlyMap<string, SheetTask>;
  readonly day: (at: Date | string) => LocalDate;
}

const isOver = ({ state }: OwnTask): boolean => state === 'done' || state === 'redo';

/** A whole day of the yard's calendar that takes nobody's time. */
const onDay = (key: string, day: LocalDate, summary: string, words: string): KeyedEntry => ({
  key,
  entry: {
    summary,
    description: words,
    location: '',
    time: { kind: 'days', from: day, until: addDays(day, 1) },
    busy: false,
    alarms: [],
  },
});

const least = (days: readonly LocalDate[]): LocalDate | null =>
  days.reduce<LocalDate | null>((a, b) => (a === null || b < a ? b : a), null);
const most = (days: readonly LocalDate[]): LocalDate | null =>
  days.reduce<LocalDate | null>((a, b) => (a === null || b > a ? b : a), null);

/**
 * Of some tasks those that are being done: what a plan has left out, the other way of a choice say,
 * counts for nothing. Null where one has to be done again and nobody has planned that yet.
 */
function counted(tasks: readonly OwnTask[], { planned }: Told): OwnTask[] | null {
  const counts = tasks.filter((task) => task.startedAt !== null || planned.has(task.id));
  const isMadeGood = ({ id, state }: OwnTask): boolean =>
    state !== 'redo' || counts.some(({ replacesId }) => replacesId === id);
  return counts.length > 0 && counts.every(isMadeGood) ? counts : null;
}

/** The day on which the last of some tasks is over; null where nobody knows of one of them. */
function overOn(tasks: readonly OwnTask[], { planned, day }: Told): LocalDate | null {
  const days = tasks.map((task) => {
    const at = isOver(task) ? task.finishedAt : planned.get(task.id)?.finish.at;
    return at ? day(at) : null;
  });
  return days.includes(null) ? null : most(days.filter((one) => one !== null));
}

function begins(told: Told): KeyedEntry[] {
  const { refit, tasks, planned, day } = told;
  const real = least(tasks.flatMap(({ startedAt }) => (startedAt ? [day(startedAt)] : [])));
  const first = real ?? least([...planned.values()].map(({ start }) => day(start.at)));
  if (first === null) return [];
  const summary = `${refit.boat}: work ${real === null ? 'begins' : 'began'}`;
  return [onDay(`begins:${refit.id}`, first, summary, `${refit.name}.`)];
}

function partDone(told: Told, part: OwnRefit['parts'][number]): KeyedEntry[] {
  const own = counted(
    told.tasks.filter(({ partId }) => partId === part.id),
    told,
  );
  const day = own && overOn(own, told);
  if (own === null || day === null) return [];
  const done = own.every(isOver);
  const summary = `${told.refit.boat}: ${part.name} ${done ? 'finished' : 'to be finished'}`;
  const left = own.filter((task) => !isOver(task)).length;
  const words = done
    ? 'All of its work is done.'
    : `${String(left)} of ${String(own.length)} pieces of work are left.`;
  return [onDay(`part:${part.id}`, day, summary, words)];
}

/** Work that waits for a word: the owner's own, a surveyor's, a reading. */
function words(told: Told): KeyedEntry[] {
  const { refit, tasks, planned, day } = told;
  return tasks
    .filter(({ skillId }) => skillId === null)
    .flatMap((task) => {
      const at = task.finishedAt ?? planned.get(task.id)?.start.at;
      if (!at) return [];
      const part = refit.parts.find(({ id }) => id === task.partId)?.name ?? '';
      const said = isOver(task) ? 'said' : 'expected';
      return [
        onDay(
          `word:${task.id}`,
          day(at),
          `${refit.boat}: ${task.name} (${part})`,
          `A word is ${said}; work waits for it.`,
        ),
      ];
    });
}

function finish(told: Told, sheet: OwnGround['sheet']): KeyedEntry[] {
  const { refit, day } = told;
  const tasks = counted(told.tasks, told) ?? [];
  const done = tasks.length > 0 && tasks.every(isOver);
  const planned = sheet?.boats.find(({ refitId }) => refitId === refit.id)?.finish.at;
  const on = done ? overOn(tasks, told) : planned === undefined ? null : day(planned);
  if (on === null) return [];
  const promised = refit.promised === null ? null : day(refit.promised);
  const due =
    promised === null
      ? 'No date is promised.'
      : on > promised
        ? `Promised for ${promised}: that is later.`
        : `Promised for ${promised}: in time.`;
  const summary = `${refit.boat}: ${refit.name} ${done ? 'finished' : 'to be finished'}`;
  return [onDay(`finish:${refit.id}`, on, summary, due)];
}

function promise({ refit, day }: Told): KeyedEntry[] {
  if (refit.promised === null) return [];
  const summary = `${refit.boat}: ${refit.name} promised`;
  return [
    onDay(
      `promised:${refit.id}`,
      day(refit.promised),
      summary,
      'The date that the yard has promised.',
    ),
  ];
}

/**
 * The milestones of somebody's boats, each a day in the yard's zone: work begins, a part is
 * finished, a word is waited for, the refit is finished, and what was promised. Planned days where
 * it is not so yet, the real ones once it is. Nothing of people or of other boats.
 */
export function ownerEntries({ zone, refits, sheet }: OwnGround): KeyedEntry[] {
  const day: Told['day'] = (at) => toLocal(Math.floor(new Date(at).getTime() / 60_000), zone).date;
  return refits.flatMap((refit) => {
    const own = sheet?.tasks.filter(({ refitId }) => refitId === refit.id) ?? [];
    const told: Told = {
      refit,
      tasks: refit.tasks.filter(({ state }) => state !== 'dropped'),
      planned: new Map(own.map((task) => [task.id, task])),
      day,
    };
    return [
      ...begins(told),
      ...refit.parts.flatMap((part) => partDone(told, part)),
      ...words(told),
      ...finish(told, sheet),
      ...promise(told),
    ];
  });
}
