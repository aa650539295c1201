import { DomainError } from '#kernel/error.ts';
import type { PlanMap } from '#planning/compile/trace/map.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Assignment, Placement, Plan, SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { insert } from '../rows.ts';
import {
  type CrewRow,
  insertCrew,
  insertPlacements,
  insertPlan,
  type PlacementRow,
} from './insert.ts';
import { readMap } from './map.ts';
import { saveProblem, unpackProblem } from './problem.ts';
import { boundsSchema, chainsSchema, floatsSchema, statusSchema } from './shapes.ts';

export interface PlanToSave {
  readonly yardId: string;
  /** The run it answers; a second plan of one run is refused (`plan_yard_id_run_id_key`). */
  readonly runId: string;
  readonly problem: Problem;
  /** With a plan in it. */
  readonly result: SolveResult;
  /** The same in the yard's words; kept, since the yard goes on changing. */
  readonly sheet: PlanSheet;
  /** Which of the yard's rows stand at the problem's indices. */
  readonly map: PlanMap;
  readonly engineVersion: string;
}

export interface StoredPlan {
  readonly id: string;
  readonly runId: string;
  readonly createdAt: Date;
  readonly engineVersion: string;
  readonly problem: Problem;
  readonly problemHash: string;
  /** The version of the model that it was compiled to, then. */
  readonly problemVersion: number;
  readonly map: PlanMap;
  readonly result: SolveResult;
}

const minuteMs = 60_000;

/** Stores a plan with its problem, whole; nothing of it can be changed after. Returns its id. */
export async function savePlan(tx: Transaction, input: PlanToSave): Promise<string> {
  const { yardId, runId, problem, result, sheet, map, engineVersion } = input;
  const { plan, status, bounds, chains, floats, iterations, foundAt } = result;
  if (plan === null || problem.origin === null) {
    throw new Error('Only a plan of a yard can be stored, with its origin');
  }
  const origin = new Date(problem.origin);
  const at = (minute: number): Date => new Date(origin.getTime() + minute * minuteMs);
  const problemHash = await saveProblem(tx, yardId, problem);
  const [lateness, finishes, money, disturbance] = plan.values;
  const planId = await insertPlan(tx, {
    yardId,
    runId,
    problemHash,
    engineVersion,
    origin,
    lateness,
    finishes,
    money,
    disturbance,
    iterations,
    foundAt,
    status: statusSchema.parse(status),
    branches: plan.branches,
    bounds,
    chains,
    floats,
    sheet,
    map,
  });
  await insert(
    tx.planRefit,
    problem.refits.map((refit, index): Prisma.PlanRefitCreateManyInput => ({
      yardId,
      planId,
      refit: index,
      refitId: map.refits[index],
      promised: refit.due === null ? null : at(refit.due),
      finishAt: at(plan.finishes[index]),
    })),
  );
  await insertPlacements(tx, { yardId, planId }, placementsOf(plan, map, floats, at));
  await insertCrew(tx, { yardId, planId }, crewOf(plan, map));
  return planId;
}

function placementsOf(
  { placements }: Plan,
  map: PlanMap,
  floats: SolveResult['floats'],
  at: (minute: number) => Date,
): PlacementRow[] {
  return placements.map((placed) => ({
    activity: placed.activity,
    taskId: map.tasks[placed.activity],
    mode: placed.mode,
    startAt: at(placed.start),
    finishAt: at(placed.finish),
    segmentStarts: placed.segments.map((segment) => at(segment.start)),
    segmentEnds: placed.segments.map((segment) => at(segment.end)),
    overtime: placed.overtime,
    slot: placed.slot,
    floatMinutes: floats[placed.activity],
  }));
}

const crewOf = ({ placements }: Plan, map: PlanMap): CrewRow[] =>
  placements.flatMap(({ activity, crew }) =>
    crew.map(({ builder, demand }) => ({ activity, memberId: map.people[builder], demand })),
  );

const planDetails = {
  problem: true,
  refits: { orderBy: { refit: 'asc' } },
  placements: {
    orderBy: { activity: 'asc' },
    include: { crew: { orderBy: { position: 'asc' } } },
  },
} as const satisfies Prisma.PlanInclude;

/** The plan as the engine gave it, with the problem it solves. Throws `record.missing`. */
export async function loadPlan(
  tx: Transaction,
  yardId: string,
  planId: string,
): Promise<StoredPlan> {
  const row = await tx.plan.findUnique({
    where: { yardId_id: { yardId, id: planId } },
    include: planDetails,
    omit: { sheet: true },
  });
  if (row === null) throw new DomainError('record.missing', `There is no plan "${planId}"`);
  const { problem, version } = unpackProblem(row.problem);
  const minute = (at: Date): number => (at.getTime() - row.origin.getTime()) / minuteMs;
  const map = readMap(row.map, problem);
  const builderOf = new Map(map.people.map((person, index) => [person, index]));
  const assignment = (person: { memberId: string; demand: number }): Assignment => {
    const builder = builderOf.get(person.memberId);
    if (builder === undefined)
      throw new Error(`The plan ${planId} names "${person.memberId}", its problem does not`);
    return { builder, demand: person.demand };
  };
  const placements = row.placements.map((placed): Placement => ({
    activity: placed.activity,
    mode: placed.mode,
    start: minute(placed.startAt),
    finish: minute(placed.finishAt),
    segments: placed.segmentStarts.map((start, index) => ({
      start: minute(start),
      end: minute(placed.segmentEnds[index]),
    })),
    crew: placed.crew.map(assignment),
    overtime: placed.overtime,
    slot: placed.slot,
  }));
  const result: SolveResult = {
    status: statusSchema.parse(row.status),
    plan: {
      placements,
      branches: row.branches,
      finishes: row.refits.map((refit) => minute(refit.finishAt)),
      values: [row.lateness, row.finishes, row.money, row.disturbance],
    },
    bounds: boundsSchema.parse(row.bounds),
    // Reasons of version 1 named no constraint; what they said is in the sheet.
    chains: version === 1 ? [] : chainsSchema.parse(row.chains),
    floats: floatsSchema.parse(row.floats),
    infeasibility: null,
    iterations: row.iterations,
    foundAt: row.foundAt,
  };
  const { id, runId, createdAt, engineVersion, problemHash } = row;
  const made = { id, runId, createdAt, engineVersion, problemHash, problemVersion: version };
  return { ...made, problem, map, result };
}
