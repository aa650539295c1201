import { intersect } from '#calendar/intervals.ts';
import { analyse } from '#scheduling/bounds/critical-path.ts';
import { promise } from '#scheduling/bounds/promise.ts';
import { lagAt } from '#scheduling/model/lag.ts';
import type { Placement, Plan, RankBound, SolveResult } from '#scheduling/model/plan.ts';
import type { Lag } from '#scheduling/model/problem.ts';
import { compile as indexed } from '#scheduling/search/crew/compiled/compiled.ts';
import type { Compiled } from '../compile/compile.ts';
import { inCents, PER_CENT } from '../compile/money.ts';
import type { Task, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { chainSteps } from './chain.ts';
import { siteOf } from './cure.ts';
import { moneyOf, overtimeOf } from './money.ts';
import { movedTasks } from './moved.ts';
import { filmOf, mixOf } from './film.ts';
import { readingOf, spanOf, type Reading } from './reading.ts';
import {
  CAUTION,
  type PlanSheet,
  type RankView,
  type SheetBoat,
  type SheetChoice,
  type SheetSlot,
  type SheetTask,
  type SheetWindow,
  type When,
} from './sheet.ts';

function limit(reading: Reading, lags: readonly Lag[], from: Placement): When | null {
  if (lags.length === 0) return null;
  const { problem, at } = reading;
  const minutes = lags.map((lag) => lagAt(problem, lag, from.mode, from[lag.fromAnchor]));
  const tightest = lags[0].bound === 'open' ? Math.max(...minutes) : Math.min(...minutes);
  return tightest > problem.horizon ? null : at.when(tightest);
}

/** The windows that a placed task gives to what follows it. */
function windowsOf(reading: Reading, activity: number, from: Placement): SheetWindow[] {
  const { problem, placed, holds, rows } = reading;
  const byLink = new Map<string, Lag[]>();
  problem.lags.forEach((lag, k) => {
    if (lag.from !== activity || !holds[k] || placed[lag.to] === undefined) return;
    byLink.set(lag.source, [...(byLink.get(lag.source) ?? []), lag]);
  });
  return [...byLink].map(([source, lags]) => {
    const to = problem.activities[lags[0].to].id;
    return {
      linkId: source.slice('link:'.length),
      toTask: to,
      toName: rows.tasks.get(to)?.name ?? to,
      kind: (lags.find((lag) => lag.bound === 'close') ?? lags[0]).kind,
      opens: limit(
        reading,
        lags.filter((lag) => lag.bound === 'open' && lag.toAnchor === 'start'),
        from,
      ),
      closes: limit(
        reading,
        lags.filter((lag) => lag.bound === 'close' && lag.toAnchor === 'finish'),
        from,
      ),
    };
  });
}

function sheetTask(
  reading: Reading,
  task: Task,
  activity: number,
  placement: Placement,
  float: number | null,
): SheetTask {
  const { rows, map, at, films, problem } = reading;
  const home = rows.parts.get(task.partId);
  const { start, finish } = spanOf(reading, task, placement);
  const material = task.material === null ? undefined : rows.materials.get(task.material);
  const crew =
    task.state === 'waiting' ? placement.crew.map(({ builder }) => map.people[builder]) : task.crew;
  const { cleanDown } = problem.activities[activity].modes[placement.mode];
  const segments = task.state === 'waiting' ? placement.segments : [{ start, end: finish }];
  return {
    id: task.id,
    name: task.name,
    refitId: task.refitId,
    boatId: home?.boat.id ?? '',
    boat: home?.boat.name ?? '',
    partId: task.partId,
    part: home?.part.name ?? task.partId,
    jobId: task.jobId,
    stepId: task.stepId,
    spaceId: task.space,
    space: rows.spaceName(task.space),
    air: task.air,
    skill: task.skill,
    material: material?.name ?? null,
    state: task.state,
    start: at.when(start),
    finish: at.when(finish),
    segments: segments.map((segment) => ({
      start: at.when(segment.start),
      finish: at.when(segment.end),
    })),
    crew: crew.map((personId) => ({ personId, name: rows.personName(personId) })),
    overtimeMinutes: overtimeOf(problem, placement).minutes,
    cleanedDown: cleanDown === 0 ? null : at.when(finish + cleanDown),
    movesTo:
      task.movesTo === null ? null : { spaceId: task.movesTo, space: rows.spaceName(task.movesTo) },
    slot: slotOf(reading, placement),
    floatMinutes: float,
    film: material === undefined ? [] : filmOf(task, material, start, finish, reading),
    windows: windowsOf(reading, activity, placement),
    mix: material === undefined ? null : mixOf(task, material, start, finish, films),
  };
}

/** The slot that a placement uses, as the yard has it. */
function slotOf({ problem, map, rows, at, yard }: Reading, placement: Placement): SheetSlot | null {
  const { slots: list } = problem.activities[placement.activity].modes[placement.mode];
  if (list === null || placement.slot === null) return null;
  const { id, slots } = map.slotLists[list];
  const place = slots[placement.slot];
  const row = yard.slotLists.find((one) => one.id === id)?.slots[place];
  const { start, end, bookBy, cost } = problem.slotLists[list].slots[placement.slot];
  return {
    listId: id,
    list: rows.slotListName(id),
    from: at.when(start),
    until: at.when(end),
    price: inCents(cost),
    bookBy: row?.booked === true ? null : at.when(bookBy),
  };
}

function boatsOf(reading: Reading, result: SolveResult, yard: Yard): SheetBoat[] {
  const { problem, plan, at } = reading;
  const earliest = analyse(indexed(problem)).finishes;
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

export interface SheetInput {
  readonly compiled: Compiled;
  /** With a plan; a result without one cannot be decoded. */
  readonly result: SolveResult;
  /** As they were when the problem was compiled. */
  readonly yard: Yard;
  readonly workload: Workload;
}

/** A result's plan in the yard's words. Throws a RangeError where the result has no plan. */
export function makeSheet({ compiled, result, yard, workload }: SheetInput): PlanSheet {
  const { problem, map } = compiled;
  const { plan } = result;
  if (plan === null) throw new RangeError('a result without a plan has no sheet');
  const reading = readingOf(problem, map, plan, yard, workload);
  const tasks = plan.placements.flatMap((placement): SheetTask[] => {
    const task = reading.rows.tasks.get(map.tasks[placement.activity]);
    if (task === undefined) return [];
    return [
      sheetTask(
        reading,
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
    version: 2,
    yardId: yard.id,
    yard: yard.name,
    timeZone: map.timeZone,
    currency: map.currency,
    origin: reading.at.when(0),
    horizon: reading.at.when(problem.horizon),
    status: result.status,
    tasks,
    choices: choicesOf(reading, workload),
    boats: boatsOf(reading, result, yard),
    ranks: ranksOf(plan, result.bounds),
    money: moneyOf(problem, plan),
    moved: movedTasks(reading),
    caution: cautionOf(reading, Math.max(0, ...plan.finishes)),
  };
}
