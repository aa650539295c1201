import type { PlanSheet, SheetTask, SheetWindow, When } from '#planning/decode/sheet.ts';
import { CAUTION } from '#planning/decode/sheet.ts';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { type TaskLife, untouched } from '../../life/life.ts';
import type { WorkGround } from '../work-ground.ts';

/** On Tuesday 3 November 2026, UTC. */
export const at = (time: string): string => `2026-11-03T${time}:00.000Z`;
export const when = (time: string): When => ({ at: at(time), local: `2026-11-03T${time}` });

/** A task of the small yard as a plan has it: who, and from when to when. */
export function planned(
  task: Task,
  people: readonly string[],
  spans: readonly (readonly [from: string, to: string])[],
  windows: readonly SheetWindow[] = [],
): SheetTask {
  const segments = spans.map(([from, to]) => ({ start: when(from), finish: when(to) }));
  return {
    ...{ id: task.id, name: task.name, refitId: task.refitId, partId: task.partId },
    ...{ jobId: task.jobId, stepId: task.stepId, air: task.air, skill: task.skill },
    ...{ boatId: 'gull', boat: 'Gull', part: 'Lid', spaceId: task.space, space: 'Shop' },
    ...{ material: task.material, state: 'waiting', windows, segments },
    ...{ start: segments[0].start, finish: segments[segments.length - 1].finish },
    crew: people.map((personId) => ({ personId, name: personId })),
    ...{ overtimeMinutes: 0, cleanedDown: null, movesTo: null, slot: null, floatMinutes: 0 },
    ...{ film: [], mix: null, bond: null, consumables: [], warnings: [], cautions: [] },
  };
}

export function sheetOf(yard: Yard, tasks: readonly SheetTask[]): PlanSheet {
  return {
    ...{ version: 3, yardId: yard.id, yard: yard.name, timeZone: yard.timeZone, currency: 'EUR' },
    ...{ origin: when('00:00'), horizon: when('23:00'), status: 'feasible', tasks },
    ...{ choices: [], boats: [], ranks: [], moved: [], shopping: [], materials: [] },
    money: { labour: 0, overtime: 0, slots: 0, prices: 0, climate: 0, total: 0 },
    caution: CAUTION,
  };
}

interface Circumstances {
  /** What has become of tasks. */
  readonly lives?: Readonly<Record<string, Partial<TaskLife>>>;
  readonly plan?: (tasks: ReadonlyMap<string, Task>) => SheetTask[];
  readonly windows?: WorkGround['windows'];
  readonly yard?: (draft: Yard) => void;
}

/** The small yard with its tasks as they are said to be. */
export function groundWith({
  lives = {},
  plan,
  windows = [],
  yard: change,
}: Circumstances): WorkGround {
  const yard = smallYard((draft) => {
    draft.people.push({ ...draft.people[0], id: 'ben', name: 'Ben', roles: ['builder'] });
    change?.(draft);
  });
  const made = makeWorkload(yard);
  const whole = new Map(
    Object.entries(lives).map(([id, life]): [string, TaskLife] => [
      id,
      { ...untouched(), ...life },
    ]),
  );
  const tasks = made.tasks.flatMap((task): Task[] => {
    const life = whole.get(task.id);
    if (life === undefined) return [task];
    const { state, startedAt, finishedAt, leftMinutes, crew } = life;
    return state === 'dropped'
      ? []
      : [{ ...task, state, startedAt, finishedAt, leftMinutes, crew }];
  });
  const byId = new Map(made.tasks.map((task) => [task.id, task]));
  return {
    yard,
    workload: { ...made, tasks },
    sheet: plan === undefined ? null : sheetOf(yard, plan(byId)),
    lives: whole,
    windows,
  };
}

/** A task of the small yard, which has it. */
export function taskOf(tasks: ReadonlyMap<string, Task>, id: string): Task {
  const task = tasks.get(id);
  if (task === undefined) throw new Error(`the small yard has no task ${id}`);
  return task;
}
