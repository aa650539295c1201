import { z } from 'zod';
import { addDays, weekStart } from '#calendar/local-date.ts';
import { moments } from '#planning/decode/reading/moments.ts';
import { rowsOf } from '#planning/decode/reading/rows.ts';
import { CAUTION, type PlanSheet, type SheetTask } from '#planning/decode/sheet.ts';
import { asJson } from '#persistence/rows.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import { generateYard } from '#seeds/generate/yard.ts';
import { type Hand, signedIn, storeYard } from '../../support/crowd.ts';
import type { TestDatabase } from '../../support/database.ts';

const WEEK_MS = 7 * 86_400_000;

/** A generated yard of about so many tasks whose plan began on the Monday of last week. */
export function liveYard(tasks: number): Yard {
  const boats = tasks > 2000 ? 10 : 4;
  const yard = generateYard({ tasks, boats, tightness: 'loose', season: 'warm', seed: 1 });
  const monday = addDays(weekStart(new Date().toISOString().slice(0, 10)), -7);
  const gone =
    Date.parse(`${monday}T00:00:00Z`) - Date.parse(`${yard.planFrom.slice(0, 10)}T00:00:00Z`);
  const weeks = Math.round(gone / WEEK_MS) * WEEK_MS;
  const later = (iso: string): string =>
    new Date(Date.parse(iso) + weeks).toISOString().replace('.000Z', 'Z');
  const text = JSON.stringify(yard).replace(
    /"(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ)"/g,
    (_, iso: string) => `"${later(iso)}"`,
  );
  return yardSchema.parse(JSON.parse(text));
}

/** Every task at a time of its own, one after the other: what a ready list is ordered by. */
function sheetOf(yard: Yard, tasks: readonly Task[]): PlanSheet {
  const at = moments(yard.planFrom, yard.timeZone);
  const rows = rowsOf(yard, { tasks, links: [], choices: [] });
  const horizon = yard.horizonDays * 1440;
  const [person] = yard.people;
  const task = (one: Task, k: number): SheetTask => {
    const home = rows.parts.get(one.partId);
    const start = Math.floor((horizon * k) / tasks.length);
    const finish = start + one.workMinutes;
    return {
      id: one.id,
      name: one.name,
      refitId: one.refitId,
      boatId: home?.boat.id ?? '',
      boat: home?.boat.name ?? '',
      partId: one.partId,
      part: home?.part.name ?? one.partId,
      jobId: one.jobId,
      stepId: one.stepId,
      spaceId: one.space,
      space: rows.spaceName(one.space),
      air: one.air,
      skill: one.skill,
      material: one.material,
      state: one.state,
      start: at.when(start),
      finish: at.when(finish),
      segments: [{ start: at.when(start), finish: at.when(finish) }],
      crew: [{ personId: person.id, name: person.name }],
      overtimeMinutes: 0,
      cleanedDown: null,
      movesTo: null,
      slot: null,
      floatMinutes: (k * 37) % 2000,
      film: [],
      windows: [],
      mix: null,
      bond: null,
      consumables: [],
      warnings: [],
      cautions: [],
    };
  };
  return {
    version: 3,
    yardId: yard.id,
    yard: yard.name,
    timeZone: yard.timeZone,
    currency: yard.currency,
    origin: at.when(0),
    horizon: at.when(horizon),
    status: 'feasible',
    tasks: tasks.map(task),
    choices: [],
    boats: [],
    ranks: [],
    money: { labour: 0, overtime: 0, slots: 0, prices: 0, climate: 0, total: 0 },
    moved: [],
    shopping: [],
    materials: [],
    caution: CAUTION,
  };
}

/** Publishes a sheet as if a run had made it: to search a plan of 8,000 tasks is another bench. */
async function publishSheet(
  { owner }: TestDatabase,
  yardId: string,
  sheet: PlanSheet,
): Promise<void> {
  const at = new Date();
  const hash = '0'.repeat(16);
  const run = await owner.planRun.create({
    data: { yardId, status: 'finished', startedAt: at, finishedAt: at },
  });
  await owner.compiledProblem.create({ data: { yardId, hash, gzip: Buffer.alloc(1) } });
  const plan = await owner.plan.create({
    data: {
      yardId,
      runId: run.id,
      problemHash: hash,
      engineVersion: 'none',
      status: sheet.status,
      origin: new Date(sheet.origin.at),
      lateness: 0,
      finishes: 0,
      branches: [],
      bounds: [],
      chains: [],
      floats: [],
      iterations: 0,
      foundAt: 0,
      sheet: asJson(sheet),
      map: {},
    },
  });
  await owner.publishedPlan.create({ data: { yardId, planId: plan.id } });
}

interface Filled {
  readonly yard: Yard;
  /** The foreman. */
  readonly foreman: Hand;
}

/** The yard with its tasks and a published plan in a database, and its foreman signed in. */
export async function fill(database: TestDatabase, tasks: number): Promise<Filled> {
  const yard = liveYard(tasks);
  await storeYard(database, yard);
  await publishSheet(database, yard.id, sheetOf(yard, makeWorkload(yard).tasks));
  const foreman = yard.people.find(({ roles }) => roles.includes('foreman'));
  if (foreman === undefined) throw new Error('a generated yard has a foreman');
  const [hand] = await signedIn(database, yard.id, [foreman.id]);
  return { yard, foreman: hand };
}

export interface Claimable {
  readonly taskId: string;
  readonly crew: readonly string[];
}

const listSchema = z.object({ ready: z.array(z.object({ taskId: z.string() })) });

/** What of a ready list somebody can take up, and who. */
export function claimableOf(yard: Yard, list: unknown): Claimable[] {
  const tasks = new Map(makeWorkload(yard).tasks.map((task) => [task.id, task]));
  return listSchema.parse(list).ready.flatMap(({ taskId }) => {
    const task = tasks.get(taskId);
    const crew = task === undefined ? null : crewFor(yard, task);
    return crew === null ? [] : [{ taskId, crew }];
  });
}

/** People who could do a task together, as many as it takes at least; null where there are not enough. */
function crewFor({ people }: Yard, task: Task): string[] | null {
  if (task.skill === null) return null;
  // Nobody who still learns: they may not be alone.
  const least = Math.max(task.minLevel, 2);
  const able = people.filter(({ abilities }) =>
    abilities.some(({ skill, level }) => skill === task.skill && level >= least),
  );
  const crew = able.slice(0, task.crewMin).map(({ id }) => id);
  return crew.length < task.crewMin ? null : crew;
}
