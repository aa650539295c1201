import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { loadWorkload, lockWork } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { compile } from '#planning/compile/compile.ts';
import { hopelessLinks } from '#planning/decode/explain/hopeless.ts';
import { jobOf } from '#planning/testing/small-yard.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { solve } from '#scheduling/solve.ts';
import { bondOnly, coatOneDone, yardNamed } from '#tests/support/coat-one-done.ts';
import { testDatabase } from '#tests/support/database.ts';
import { planted } from '#tests/support/planted.ts';
import { giveUpWindow } from '../../apps/worker/src/plan-runs/replan/hopeless-window.ts';

const database = testDatabase();
const now = '2026-11-02T11:00:00Z';
let states: YardStates;

/** Coat two takes an hour, from 12:00 to 15:00 at the latest. */
const until = (hour: string) => (draft: Yard) => {
  bondOnly(draft);
  const shifts = [{ from: '08:00', to: hour, breaks: [] }];
  draft.people[0].exceptions = [{ date: '2026-11-02', shifts, reason: 'leaves early' }];
};
const withDoor = (hour: string) => (draft: Yard) => {
  until(hour)(draft);
  const { parts } = draft.boats[0].refits[0];
  parts.push({ ...parts[0], id: 'door', name: 'Door', areaM2: 1, jobs: [jobOf('door')] });
};

beforeAll(async () => {
  states = new YardStates(database.serviceUrl);
  await coatOneDone(database, yardNamed('early', until('11:30')));
  await coatOneDone(database, yardNamed('pair', withDoor('13:10')), ['lid', 'door']);
  await coatOneDone(database, yardNamed('claimed', until('11:30')));
});
afterAll(() => states.close());

/** What the planner makes of the yard as it is stored. */
const planned = (yardId: string) =>
  inYard(database.service, service(yardId), async (tx) => {
    const yard = await loadYard(tx, yardId);
    const compiled = compile({ yard, workload: await loadWorkload(tx, yardId), now });
    const { status, plan, infeasibility } = solve(compiled.problem, { seed: 1, iterations: 500 });
    const hopeless = infeasibility === null ? [] : hopelessLinks(compiled, infeasibility);
    return { status, hopeless, violations: plan === null ? [] : check(compiled.problem, plan) };
  });

/** Whether a window of them was given up. */
const giveUp = (yardId: string, linkIds: readonly string[]): Promise<boolean> =>
  inYard(database.service, service(yardId), async (tx) => {
    await lockWork(tx, yardId);
    const tell = await giveUpWindow(tx, await states.at(tx, yardId), linkIds, new Date(now));
    await tell?.();
    return tell !== null;
  });
const made = (yardId: string) =>
  database.owner.event.findMany({
    where: { yardId, kind: 'rework-made' },
    select: { subjectId: true, byMemberId: true, payload: true },
  });

describe('a window that is open, and that nobody can come to in time', () => {
  it('is found where no plan can be, and leaves one once its preparation is part of the work', async () => {
    const before = await planned('early');
    expect(before).toMatchObject({ status: 'infeasible', hopeless: ['lid.bond'] });
    expect(await giveUp('early', before.hopeless)).toBe(true);
    const [event, ...more] = await made('early');
    expect(more).toEqual([]);
    expect(event).toMatchObject({ subjectId: 'lid.two', byMemberId: null });
    expect(JSON.stringify(event.payload)).toContain(
      'No plan keeps the window for “Coat two” on Lid after “Coat one”: first it has to be washed with water, abraded with 80 grit, vacuumed and wiped.',
    );
    expect(await planned('early')).toMatchObject({ hopeless: [], violations: [] });
    expect((await planned('early')).status).not.toBe('infeasible');
    const broken = await inYard(database.service, service('early'), (tx) =>
      verifyReplay(tx, 'early'),
    );
    // The test wrote what was done past the log.
    expect(broken.filter((line) => !/lid\.(sand|one)\b/.test(line))).toEqual([]);
  });

  it('is of two for which there is time for one that which costs the least work', async () => {
    const { status, hopeless } = await planned('pair');
    expect(status).toBe('infeasible');
    expect(hopeless.toSorted()).toEqual(['door.bond', 'lid.bond']);
    expect(await giveUp('pair', hopeless)).toBe(true);
    // Half as large.
    expect((await made('pair')).map(({ subjectId }) => subjectId)).toEqual(['door.two']);
    const after = await planned('pair');
    expect(after.status).not.toBe('infeasible');
    expect(after.violations).toEqual([]);
  });

  it('is left to whoever has the work in hand', async () => {
    const { hopeless } = await planned('claimed');
    expect(hopeless).toHaveLength(1);
    await database.owner.claim.create({
      data: {
        yardId: 'claimed',
        taskId: 'lid.two',
        memberId: 'ada',
        claimedAt: new Date(now),
        lapsesAt: new Date('2026-11-02T13:00:00Z'),
      },
    });
    await planted(database, 'claimed');
    expect(await giveUp('claimed', hopeless)).toBe(false);
    expect(await made('claimed')).toEqual([]);
  });
});
