import type { PlanMap } from '#planning/compile/trace/map.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';

// Somebody waits for it: a plan of 720 tasks, whose sheet is 3 MB, took 0.37 to 0.44 s as text given to
// the database, and 0.60 to 0.86 s by the client's own `create` and `createMany`.

type Columns<Row, Given extends keyof Row> = Required<Omit<Row, Given>>;

/** Columns and documents of a plan's row. */
interface PlanRow
  extends
    Columns<
      Prisma.PlanUncheckedCreateWithoutRefitsInput,
      | 'id'
      | 'createdAt'
      | 'placements'
      | 'published'
      | 'candidate'
      | 'publishings'
      | 'branches'
      | 'bounds'
      | 'chains'
      | 'floats'
      | 'sheet'
      | 'map'
    >,
    Pick<SolveResult, 'bounds' | 'chains' | 'floats'> {
  readonly branches: readonly number[];
  readonly sheet: PlanSheet;
  readonly map: PlanMap;
}

/** Returns its id. */
export async function insertPlan(tx: Transaction, row: PlanRow): Promise<string> {
  const text = (document: unknown): string => JSON.stringify(document);
  const [{ id }] = await tx.$queryRaw<{ id: string }[]>`
    INSERT INTO plan (
      yard_id, run_id, problem_hash, engine_version, status, origin,
      lateness, finishes, money, disturbance, branches, iterations, found_at,
      bounds, chains, floats, sheet, map
    ) VALUES (
      ${row.yardId}, ${row.runId}::uuid, ${row.problemHash}, ${row.engineVersion},
      ${row.status}, ${row.origin},
      ${row.lateness}, ${row.finishes}, ${row.money}, ${row.disturbance},
      ${[...row.branches]}::int[], ${row.iterations}, ${row.foundAt},
      ${text(row.bounds)}::jsonb, ${text(row.chains)}::jsonb, ${text(row.floats)}::jsonb,
      ${text(row.sheet)}::jsonb, ${text(row.map)}::jsonb
    ) RETURNING id::text AS id`;
  return id;
}

interface OfPlan {
  readonly yardId: string;
  readonly planId: string;
}

export type PlacementRow = Columns<Prisma.PlanPlacementCreateManyInput, keyof OfPlan>;

export async function insertPlacements(
  tx: Transaction,
  { yardId, planId }: OfPlan,
  rows: readonly PlacementRow[],
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO plan_placement (
      yard_id, plan_id, activity, task_id, mode, start_at, finish_at,
      segment_starts, segment_ends, overtime, slot, float_minutes
    )
    SELECT ${yardId}, ${planId}::uuid, "activity", "taskId", "mode", "startAt", "finishAt",
           "segmentStarts", "segmentEnds", "overtime", "slot", "floatMinutes"
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS row(
      "activity" int, "taskId" text, "mode" int, "startAt" timestamptz, "finishAt" timestamptz,
      "segmentStarts" timestamptz[], "segmentEnds" timestamptz[], "overtime" boolean,
      "slot" int, "floatMinutes" int
    )`;
}

export type CrewRow = Columns<Prisma.PlacementCrewCreateManyInput, keyof OfPlan | 'position'>;

/** In their order, which is the positions'. */
export async function insertCrew(
  tx: Transaction,
  { yardId, planId }: OfPlan,
  rows: readonly CrewRow[],
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO plan_placement_crew (yard_id, plan_id, activity, member_id, demand)
    SELECT ${yardId}, ${planId}::uuid, "activity", "memberId", "demand"
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS row(
      "activity" int, "memberId" text, "demand" int
    )`;
}
