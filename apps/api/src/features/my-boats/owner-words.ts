import { addDays } from '#calendar/local-date.ts';
import { inWords } from '#planning/decode/reading/moments.ts';
import type { SheetTask, When } from '#planning/decode/sheet.ts';
import type { OwnerRefit, WeekItem } from './my-boats.contract.ts';
import type { OwnBoat, OwnBoats } from './my-boats.store.ts';
import { whenOf } from './owner-when.ts';

type Refit = OwnBoat['refits'][number];
type RealTask = Refit['tasks'][number];

const weekdays = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/** One refit as its owner reads it. */
export function ownerRefitOf(
  refit: Refit,
  own: Pick<OwnBoats, 'sheet' | 'timeZone' | 'showsCrew'>,
  weekStart: string,
): OwnerRefit {
  const { sheet, timeZone } = own;
  const planned = sheet?.boats.find(({ refitId }) => refitId === refit.id);
  const tasks = sheet?.tasks.filter(({ refitId }) => refitId === refit.id) ?? [];
  const real = new Map(refit.tasks.map((task) => [task.id, task]));
  const promised = refit.promised && whenOf(refit.promised, timeZone);
  const finish = planned?.finish ?? null;
  const handover = finish === null ? null : handoverOf(refit, finish);
  const late = lateMinutes(refit, planned, handover);
  return {
    id: refit.id,
    name: refit.name,
    promised,
    plannedFinish: finish,
    lateMinutes: late,
    tasksDone: refit.tasks.filter(({ state }) => state === 'done').length,
    tasks: tasks.length,
    words: sentence({ promised, finish, handover, late }, timeZone),
    thisWeek: tasks.flatMap((task) => daysOf(task, real.get(task.id), weekStart, own)),
  };
}

/** As plans count it: the first of the agreed moments that is not before the finish; null after the last. */
function handoverOf({ handovers }: Refit, finish: When): Date | null {
  const finished = new Date(finish.at);
  return handovers.length === 0 ? finished : (handovers.find((at) => at >= finished) ?? null);
}

function lateMinutes(
  { promised }: Refit,
  planned: { readonly lateMinutes: number } | undefined,
  handover: Date | null,
): number {
  if (planned === undefined || promised === null) return 0;
  // After the last moment there is none to count to, and the plan has counted to its own end.
  if (handover === null) return Math.ceil(planned.lateMinutes);
  return Math.max(0, Math.ceil((handover.getTime() - promised.getTime()) / 60_000));
}

interface Told {
  readonly promised: When | null;
  readonly finish: When | null;
  readonly handover: Date | null;
  readonly late: number;
}

function sentence({ promised, finish, handover, late }: Told, zone: string): string {
  const said =
    promised === null ? 'No date is promised' : `Promised for ${inWords(promised, zone)}`;
  if (finish === null) return `${said}; there is no published plan for it yet.`;
  const due = promised === null ? '' : late > 0 ? ', which is later than promised' : ', in time';
  const over =
    handover === null || handover.getTime() === Date.parse(finish.at)
      ? ''
      : ` and handed over ${inWords(whenOf(handover, zone), zone)}`;
  return `${said}; planned to be finished ${inWords(finish, zone)}${over}${due}.`;
}

/** The days of this week on which the task is done: as planned, or, once it is over, the real one. */
function daysOf(
  task: SheetTask,
  real: RealTask | undefined,
  weekStart: string,
  { timeZone, showsCrew }: Pick<OwnBoats, 'timeZone' | 'showsCrew'>,
): WeekItem[] {
  if (real === undefined) return [];
  const state = states[real.state];
  const done = state === 'done' && real.finishedAt !== null;
  const planned = task.segments.map(({ start }) => start.local.slice(0, 10));
  const days =
    done && real.finishedAt ? [whenOf(real.finishedAt, timeZone).local.slice(0, 10)] : planned;
  return Array.from({ length: 7 }, (_, day) => ({ day, date: addDays(weekStart, day) }))
    .filter(({ date }) => days.includes(date))
    .map(({ day, date }) => ({
      date,
      part: task.part,
      task: task.name,
      state,
      crew: showsCrew ? task.crew.map(({ name }) => name) : null,
      words: `${weekdays[day]}: ${task.name}, ${task.part}${endings[state]}.`,
    }));
}

/** What was put aside goes on; what is done again was done, and its rework is planned beside it. */
const states = {
  waiting: 'planned',
  working: 'working',
  paused: 'working',
  done: 'done',
  redo: 'done',
  dropped: 'planned',
} as const;

const endings = { planned: '', working: ' (under way)', done: ' (done)' } as const;
