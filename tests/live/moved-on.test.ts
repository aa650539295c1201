import { afterAll, beforeAll, expect, it } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { lastEventId } from '#persistence/live/yard-state.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { sinceOffered } from '#persistence/plan/moved-on.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { testDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';

const database = testDatabase();
const yardId = 'long-day';
let states: YardStates;
let sheet: PlanSheet;

beforeAll(async () => {
  const small = smallYard();
  const people = small.people.map((one) => ({ ...one, email: null }));
  const yard = yardSchema.parse({ ...small, id: yardId, people });
  await inYard(
    database.service,
    service(yardId),
    async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, yardId, makeWorkload(yard));
    },
    { timeout: 60_000 },
  );
  sheet = await publishPlan(database, yardId);
  states = new YardStates(database.serviceUrl);
}, 90_000);
afterAll(() => states.close());

/** What a candidate that was made after that event does not know. */
const since = (readEventId: bigint): Promise<string[]> =>
  inYard(database.service, service(yardId), async (tx) => {
    const state = await states.at(tx, yardId);
    const now = new Date(state.yard.planFrom);
    return sinceOffered(tx, { yardId, basePlanId: state.planId, readEventId, sheet }, state, now);
  });

it('a candidate does not know what happened after hundreds of things that go with it', async () => {
  const readEventId = await inYard(database.service, service(yardId), (tx) =>
    lastEventId(tx, yardId),
  );
  const rung = { yardId, kind: 'alarm-rung', subject: 'alarm', subjectId: 'one' };
  const payload = { kind: 'opens', taskId: 'lid.two' };
  await inYard(database.service, service(yardId), (tx) =>
    tx.event.createMany({ data: Array.from({ length: 700 }, () => ({ ...rung, payload })) }),
  );
  expect(await since(readEventId)).toEqual([]);
  await inYard(database.service, service(yardId), (tx) =>
    tx.event.create({
      data: { yardId, kind: 'yard-changed', subject: 'yard', subjectId: yardId },
    }),
  );
  expect(await since(readEventId)).toEqual(['What holds for the whole yard was changed.']);
});
