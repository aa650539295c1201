import { intersect } from '#calendar/intervals.ts';
import { analyse } from '#scheduling/bounds/critical-path.ts';
import { lagAt } from '#scheduling/model/lag.ts';
import type { Placement, RankBound, SolveResult } from '#scheduling/model/plan.ts';
import type { Lag } from '#scheduling/model/problem.ts';
import { compile as indexed } from '#scheduling/search/crew/compiled.ts';
import type { Compiled } from '../compile/compile.ts';
import type { Task, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { chainSteps } from './chain.ts';
import { filmOf, mixOf } from './film.ts';
import { readingOf, spanOf, type Reading } from './reading.ts';
import {
  CAUTION,
  type PlanSheet,
  type RankView,
  type SheetBoat,
  type SheetChoice,
  type SheetTask,
  type SheetWindow,
  type When,
} from './sheet.ts';

function limit(reading: Reading, lags: readonly Lag[], from: Placement): When | null {
  if (lags.length === 0) return null;
  const { problem, at } = reading;
  const minutes = lags.map((lag) => lagAt(problem, lag, from[lag.fromAnchor]));
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
    floatMinutes: float,
    film:
      material === undefined
        ? []
        : filmOf(task, material, start, finish, films, problem.horizon, at),
    windows: windowsOf(reading, activity, placement),
    mix: material === undefined ? null : mixOf(task, material, start, finish, films),
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
      const { due } = problem.refits[index];
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
          lateMinutes: due === null ? 0 : Math.max(0, finish - due),
          earliest: at.when(Math.min(finish, earliest[index])),
          gapMinutes: Math.max(0, finish - earliest[index]),
          tasks: plan.placements.filter(
            ({ activity }) => problem.activities[activity].refit === index,
          ).length,
          chain: chain === undefined ? [] : chainSteps(reading, chain),
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

const rank = (value: number, bound: RankBound | undefined): RankView | null =>
  bound === undefined
    ? null
    : {
        value,
        bound: bound.bound,
        gapMinutes: bound.gapMinutes,
        gap: bound.gap,
        proof: bound.proof,
      };

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
    version: 1,
    yardId: yard.id,
    yard: yard.name,
    timeZone: map.timeZone,
    origin: reading.at.when(0),
    horizon: reading.at.when(problem.horizon),
    status: result.status,
    tasks,
    choices: choicesOf(reading, workload),
    boats: boatsOf(reading, result, yard),
    lateness: rank(plan.values[0], result.bounds.at(0)),
    finishes: rank(plan.values[1], result.bounds.at(1)),
    caution: cautionOf(reading, Math.max(0, ...plan.finishes)),
  };
}
