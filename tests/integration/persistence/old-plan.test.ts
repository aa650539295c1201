import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { loadPlan } from '#persistence/plan/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { canonical, fnv64 } from '#planning/compile/trace/hash.ts';
import { rowOf } from '#planning/compile/trace/map.ts';
import { whyNotEarlier } from '#planning/decode/explain/why-not-earlier.ts';
import { check } from '#scheduling/checker/check.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { testDatabase } from '#tests/support/database.ts';
import { map, problem, sheet } from './old-plan.ts';
import { secondSheet } from './second-sheet.ts';
import { smallYard } from './small-yard.ts';

const database = testDatabase();

const within = <T>(work: (tx: Transaction) => Promise<T>): Promise<T> =>
  inYard(database.service, service('y'), work);

const runId = '00000000-0000-4000-8000-00000000000c';
const planId = '00000000-0000-4000-8000-00000000000d';
const at = (minute: number): Date => new Date(Date.parse(problem.origin) + 60_000 * minute);

beforeAll(async () => {
  await within(async (tx) => {
    await saveYard(tx, smallYard('y'));
    const hash = fnv64(canonical(problem));
    const gzip = Uint8Array.from(gzipSync(JSON.stringify(problem)));
    await tx.planRun.create({ data: { yardId: 'y', id: runId } });
    await tx.compiledProblem.create({ data: { yardId: 'y', hash, gzip } });
    await tx.plan.create({
      data: {
        yardId: 'y',
        id: planId,
        runId,
        problemHash: hash,
        engineVersion: '0.1.0',
        status: 'optimal',
        origin: at(0),
        lateness: 0,
        finishes: 180,
        branches: [],
        bounds: [
          { bound: 0, cap: null, gap: 0, gapMinutes: 0, proof: 'critical-path' },
          { bound: 180, cap: 0, gap: 0, gapMinutes: 0, proof: 'critical-path' },
        ],
        chains: [
          { refit: 0, links: [{ from: 0, to: 1, reason: { kind: 'calendar' }, until: 120 }] },
        ],
        floats: [0, 0],
        sheet,
        map,
        iterations: 1,
        foundAt: 1,
      },
    });
    await tx.planRefit.create({
      data: { yardId: 'y', planId, refit: 0, refitId: 'heron-27', finishAt: at(180) },
    });
    for (const [activity, taskId] of map.tasks.entries()) {
      const [startAt, finishAt] = [at(120 * activity), at(120 * activity + 60)];
      const segments = { segmentStarts: [startAt], segmentEnds: [finishAt] };
      const row = { yardId: 'y', planId, activity };
      await tx.planPlacement.create({
        data: { ...row, taskId, mode: 0, startAt, finishAt, ...segments },
      });
      await tx.placementCrew.create({ data: { ...row, memberId: 'ann', demand: 0 } });
    }
  });
});

async function stored() {
  const all = await within((tx) => loadPlan(tx, 'y', planId));
  const { plan } = all.result;
  if (plan === null) throw new Error('the plan came back without placements');
  return { ...all, plan };
}

describe('a plan from before', () => {
  it('is read with its problem, both in the version of now', async () => {
    const { problem: now, problemVersion, plan, result } = await stored();
    expect([now.version, problemVersion]).toEqual([2, 1]);
    expect(plan.values).toEqual([0, 180, 0, 0]);
    expect(result.bounds.map(({ bound, caps }) => [bound, caps])).toEqual([
      [0, []],
      [180, [0]],
    ]);
    expect(result.chains).toEqual([]);
  });

  it('passes the checker, and a minute earlier does not', async () => {
    const { problem: now, plan } = await stored();
    expect(check(now, plan)).toEqual([]);
    const [first, second] = plan.placements;
    const earlier = { ...second, start: 119, finish: 179, segments: [{ start: 119, end: 179 }] };
    const moved: Plan = {
      ...plan,
      placements: [first, earlier],
      finishes: [179],
      values: [0, 179, 0, 0],
    };
    expect(check(now, moved).map(({ kind }) => kind)).toEqual(['lag-open']);
  });

  it('says why a task is not earlier, by the row that asked for it', async () => {
    const { problem: now, map: kept, plan } = await stored();
    const why = whyNotEarlier({ problem: now, plan, map: kept, task: 'second' });
    expect(Date.parse(why?.asked.at ?? '')).toBe(at(119).getTime());
    expect(why?.steps.map(({ fromTask, row }) => [fromTask, row?.kind, row?.id])).toEqual([
      ['first', 'link', 'l'],
    ]);
    expect(rowOf(kept, now, { kind: 'builder', builder: 0 })).toMatchObject({ id: 'ann' });
  });

  it('has its sheet, with the ranks that were counted then', () => {
    const now = readSheet(sheet);
    expect(now.version).toBe(3);
    expect(now.ranks.map(({ rank, value }) => [rank, value])).toEqual([
      ['promises', 0],
      ['finishes', 180],
    ]);
  });

  it('of the second kind has its film marks, its windows and its cautions, and weighs nothing', () => {
    const now = readSheet(secondSheet);
    expect(now.version).toBe(3);
    expect([now.shopping, now.materials]).toEqual([[], []]);
    const [old] = secondSheet.tasks;
    const { film: oldFilm, ...same } = old;
    const [{ film, cautions, ...task }] = now.tasks;
    expect(task).toEqual({ ...same, mix: null, bond: null, consumables: [], warnings: [] });
    const [mark] = oldFilm;
    expect(film).toEqual([
      { ...mark, earliest: mark.when, latest: mark.when, touchTest: null },
      { ...oldFilm[1], when: null, earliest: null, latest: null, touchTest: null },
    ]);
    expect(cautions).toEqual([{ text: 'gloves', source: 'the yard’s own sheet' }]);
    expect(now.money).toEqual({ ...secondSheet.money, climate: 0 });
    expect(now.boats).toEqual(secondSheet.boats);
  });
});
