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
  const late =
    finish === null || refit.promised === null
      ? 0
      : Math.max(0, Math.ceil((Date.parse(finish.at) - refit.promised.getTime()) / 60_000));
  return {
    id: refit.id,
    name: refit.name,
    promised,
    plannedFinish: finish,
    lateMinutes: late,
    tasksDone: refit.tasks.filter(({ state }) => state === 'done').length,
    tasks: tasks.length,
    words: sentence(promised, finish, late, timeZone),
    thisWeek: tasks.flatMap((task) => daysOf(task, real.get(task.id), weekStart, own)),
  };
}

function sentence(promised: When | null, finish: When | null, late: number, zone: string): string {
  const said =
    promised === null ? 'No date is promised' : `Promised for ${inWords(promised, zone)}`;
  if (finish === null) return `${said}; there is no published plan for it yet.`;
  const due = promised === null ? '' : late > 0 ? ', which is later than promised' : ', in time';
  return `${said}; planned to be finished ${inWords(finish, zone)}${due}.`;
}

/** The days of this week on which the task is done: as planned, or, once it is over, the real one. */
function daysOf(
  task: SheetTask,
  real: RealTask | undefined,
  weekStart: string,
  { timeZone, showsCrew }: Pick<OwnBoats, 'timeZone' | 'showsCrew'>,
): WeekItem[] {
  if (real === undefined) return [];
  const done = real.state === 'done' && real.finishedAt !== null;
  const planned = task.segments.map(({ start }) => start.local.slice(0, 10));
  const days =
    done && real.finishedAt ? [whenOf(real.finishedAt, timeZone).local.slice(0, 10)] : planned;
  const state = real.state === 'waiting' ? 'planned' : real.state;
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

const endings = { planned: '', working: ' (under way)', done: ' (done)' } as const;
