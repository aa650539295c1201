import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ruleOf } from '#access/table.ts';
import { inTurns } from './requests/in-turns.ts';
import { fullRequests } from './walk/ask.ts';
import { person } from './walk/callers.ts';
import { type Case, casesOf } from './walk/cases.ts';
import { type Documents, documentsOf } from './walk/documents.ts';
import { openBuild } from './walk/open-build.ts';
import { traceOf } from './walk/traces.ts';
import { leaksOf } from './world/leaks.ts';
import { send } from './requests/send.ts';
import type { World } from './world/make-world.ts';
import { twoYards } from './world/two-yards.ts';

/** The walk's calls across yards, put to a service whose own checks are switched off. */
const worldOf = twoYards();
let documents: Documents;
beforeAll(async () => {
  documents = await documentsOf(worldOf());
});

/** Everything in another yard, and everything of another yard asked for in the caller's own. */
function across(world: World): Case[] {
  const foreman = person(world.here, 'foreman');
  return documents.all
    .filter(({ kind }) => kind !== 'subscription')
    .flatMap((operation) => {
      const rule = ruleOf(operation.face);
      return rule && typeof rule.may !== 'string' ? casesOf(operation, rule, [foreman], world) : [];
    })
    .filter(
      ({ yard, target }) => yard === 'another' || (yard === 'this' && target.record === 'other’s'),
    );
}

const openings: [name: string, entered: (world: World) => (yardId: string) => string][] = [
  // The guard has let them in; the database is asked to enter, and finds out that they are no member.
  ['a guard that lets everybody in everywhere', () => (yardId) => yardId],
  // The transaction is the caller's own yard's; every `where` of the service says the other one.
  [
    'a service that asks the caller’s yard for another’s rows',
    ({ here }) =>
      () =>
        here.yardId,
  ],
];

describe.each(openings)('behind %s', (_name, entered) => {
  let open: NestFastifyApplication;
  beforeAll(async () => {
    const { database, here, there } = worldOf();
    const foremanOf = ({ people }: typeof here): string => people.foreman.memberId;
    open = await openBuild(database.serviceUrl, {
      entered: entered(worldOf()),
      memberOf: (yardId) => foremanOf(yardId === there.yardId ? there : here),
    });
    await open.init();
  });
  afterAll(() => open.close());

  test('row security shows and changes nothing of another yard', async () => {
    const world = worldOf();
    const cases = across(world);
    const leaksIn = leaksOf(world.there);
    const requests = fullRequests(world, documents.schemas);
    const before = await traceOf(world.database, world.there.yardId);
    const found = await inTurns(cases, 6, async (one) => {
      const request = requests(one);
      const { text, status } = await send(open, request, 500);
      const asked = decodeURIComponent(request.url) + (request.body ?? '');
      return { face: one.operation.face, status, leaks: leaksIn(asked, text) };
    });
    expect(found.filter(({ leaks }) => leaks.length > 0)).toEqual([]);
    expect(await traceOf(world.database, world.there.yardId)).toEqual(before);
    expect(cases.length).toBeGreaterThan(200);
    process.stdout.write(`second wall alone: ${cases.length} cases across yards\n`);
  }, 600_000);

  test('and the own yard as ever', async () => {
    const { here } = worldOf();
    const { token } = here.people.foreman;
    const { status, text } = await send(open, {
      method: 'GET',
      url: `/api/v1/yards/${here.yardId}/boats`,
      headers: { authorization: `Bearer ${token}` },
    });
    expect([status, text.includes(here.secret)]).toEqual([200, true]);
  });
});
