import { intersect } from '#calendar/intervals.ts';
import { CATALOGUE_VERSION } from '#cure/catalogue/classes.ts';
import { analyse } from '#scheduling/bounds/critical-path.ts';
import { promise } from '#scheduling/bounds/promise.ts';
import type { Plan, RankBound, SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { compile as indexed } from '#scheduling/search/crew/compiled/compiled.ts';
import type { Compiled } from '../compile/compile.ts';
import { climateCost } from '../compile/climate/climate-cost.ts';
import { inCents, PER_CENT } from '../compile/frame/money.ts';
import type { Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { chainSteps } from './explain/chain.ts';
import { siteOf } from './explain/cure.ts';
import { materialLines } from './material-lines.ts';
import { moneyOf } from './money.ts';
import { movedTasks } from './moved.ts';
import { plannedBefore } from './reading/past-work.ts';
import { filmOf } from './reading/film.ts';
import { type Ground, groundOf, readingOf, type Reading } from './reading/reading.ts';
import {
  CAUTION,
  type PlanSheet,
  type RankView,
  type SheetBoat,
  type SheetChoice,
  type SheetMaterial,
  type SheetTask,
} from './sheet.ts';
import { sheetTask } from './sheet-task.ts';
import { shoppingOf } from './shopping.ts';

/** `earliest`: before which no refit can be finished. */
function boatsOf(reading: Reading, result: SolveResult, earliest: readonly number[]): SheetBoat[] {
  const { problem, plan, yard, at } = reading;
  return yard.boats.flatMap((boat) =>
    boat.refits.flatMap((refit): SheetBoat[] => {
      const index = problem.refits.findIndex(({ id }) => id === refit.id);
      if (index < 0) return [];
      const finish = plan.finishes[index];
      const { due, weight } = problem.refits[index];
      const chain = result.chains.find((one) => one.refit === index);
      return [
        {
          boatId: boat.id,
          boat: boat.name,
          refitId: refit.id,
          refit: refit.name,
          ownerId: boat.owner,
          promised: due === null ? null : at.when(due),
          finish: at.when(finish),
          lateMinutes: promise(problem, index, finish) / weight,
          earliest: at.when(Math.min(finish, earliest[index])),
          gapMinutes: Math.max(0, finish - earliest[index]),
          tasks: plan.placements.filter(
            ({ activity }) => problem.activities[activity].refit === index,
          ).length,
          chain: chain === undefined ? [] : chainSteps(siteOf(reading), chain, at),
        },
      ];
    }),
  );
}

function choicesOf(reading: Reading, workload: Workload): SheetChoice[] {
  const { map, plan } = reading;
  const taken = new Map(
    map.choices.map((choice, c) => [choice.id, choice.branches[plan.branches[c]]]),
  );
  for (const { id, branch } of map.decided) taken.set(id, branch);
  return workload.choices.flatMap(({ id, name, partId, branches }) => {
    const branch = branches.find((one) => one.id === taken.get(id));
    return branch === undefined
      ? []
      : [{ id, name, partId, branch: branch.id, branchName: branch.name }];
  });
}

const RANKS = ['promises', 'finishes', 'money', 'disturbance'] as const;

function ranksOf({ values }: Plan, bounds: readonly RankBound[]): RankView[] {
  return bounds.map(({ bound, distance, gap, proof }, k) => {
    const amount = RANKS[k] === 'money' ? inCents : (value: number): number => value;
    return {
      rank: RANKS[k],
      value: amount(values[k]),
      // The safe way: never above what was proved.
      bound: RANKS[k] === 'money' ? Math.floor(bound / PER_CENT) : bound,
      distance: amount(distance),
      gap,
      proof,
    };
  });
}

/** The caution, with the stretch of the plan for which outdoor temperatures were not known. */
function cautionOf({ assumed, at }: Reading, finish: number): string {
  const within = intersect(assumed, [{ start: 0, end: finish }]);
  if (within.length === 0) return CAUTION;
  const from = at.words(within[0].start);
  const to = at.words(within[within.length - 1].end);
  return `${CAUTION} The outdoor table does not cover all of ${from} to ${to}: there the same hours of the nearest day in it stand in.`;
}

/** Materials of the plan's tasks, as it reckoned with them, by id. */
function materialsOf({ plan, map, rows, films }: Reading): SheetMaterial[] {
  const used = plan.placements.flatMap(({ activity }) => {
    const id = rows.tasks.get(map.tasks[activity])?.material ?? null;
    return id === null ? [] : [id];
  });
  return [...new Set(used)].sort().map((id) => {
    const material = films.material(id);
    return {
      id,
      name: material.name,
      classId: material.classId,
      catalogue: CATALOGUE_VERSION,
      lines: materialLines(material),
    };
  });
}

export interface SheetInput {
  readonly compiled: Compiled;
  /** With a plan; a result without one cannot be decoded. `earliest`: before which no refit can be finished. */
  readonly result: SolveResult & { readonly earliest?: readonly number[] | null };
  /** As they were when the problem was compiled. */
  readonly yard: Yard;
  readonly workload: Workload;
}

const grounds = new WeakMap<Problem, Ground>();

function groundFor({ compiled, yard, workload }: Omit<SheetInput, 'result'>): Ground {
  const { problem, map } = compiled;
  const known = grounds.get(problem);
  if (known?.map === map && known.yard === yard && known.workload === workload) return known;
  const fresh = groundOf(problem, map, yard, workload);
  grounds.set(problem, fresh);
  return fresh;
}

/**
 * The cure clocks that a sheet takes, which do not hang on the plan: a caller who waits for one may
 * make them meanwhile, step by step, and `makeSheet` finds them. Measured at 720 tasks: 0.2 s.
 */
export function* prepareSheet(input: Omit<SheetInput, 'result'>): Generator<undefined> {
  const ground = groundFor(input);
  for (const id of ground.map.tasks) {
    const task = ground.rows.tasks.get(id);
    if (task === undefined || task.material === null) continue;
    filmOf(task, task.material, 0, 0, ground);
    yield;
  }
}

/** A result's plan in the yard's words. Throws a RangeError where the result has no plan. */
export function makeSheet({ compiled, result, yard, workload }: SheetInput): PlanSheet {
  const { problem, map } = compiled;
  const { plan } = result;
  if (plan === null) throw new RangeError('a result without a plan has no sheet');
  const reading = readingOf(groundFor({ compiled, yard, workload }), plan);
  const earliest = result.earliest ?? analyse(indexed(problem)).finishes;
  const site = { ...reading, before: plannedBefore(reading) };
  const tasks = plan.placements.flatMap((placement): SheetTask[] => {
    const task = reading.rows.tasks.get(map.tasks[placement.activity]);
    if (task === undefined) return [];
    return [
      sheetTask(
        reading,
        site,
        task,
        placement.activity,
        placement,
        result.floats.at(placement.activity) ?? null,
      ),
    ];
  });
  tasks.sort((a, b) =>
    a.start.at === b.start.at ? (a.id < b.id ? -1 : 1) : a.start.at < b.start.at ? -1 : 1,
  );
  return {
    version: 3,
    yardId: yard.id,
    yard: yard.name,
    timeZone: map.timeZone,
    currency: map.currency,
    origin: reading.at.when(0),
    horizon: reading.at.when(problem.horizon),
    status: result.status,
    tasks,
    choices: choicesOf(reading, workload),
    boats: boatsOf(reading, result, earliest),
    ranks: ranksOf(plan, result.bounds),
    money: moneyOf(problem, plan, climateCost(yard, reading.frame)),
    moved: movedTasks(reading),
    shopping: shoppingOf(tasks, (id) => reading.films.material(id).shelfLifeDays?.value ?? null),
    materials: materialsOf(reading),
    caution: cautionOf(reading, Math.max(0, ...plan.finishes)),
  };
}
