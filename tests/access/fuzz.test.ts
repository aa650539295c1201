import { afterAll, beforeAll, expect, test } from 'vitest';
import { ruleOf } from '#access/table.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { hashPassword } from '../../apps/api/src/platform/access/password.ts';
import { testPassword } from '../support/api.ts';
import { judging } from './fuzz/judge.ts';
import { type Made, makingOf } from './fuzz/making.ts';
import { turnsOf } from './fuzz/turns.ts';
import { subscriptions } from './fuzz/subscriptions.ts';
import { choose } from './requests/choose.ts';
import { inTurns } from './requests/in-turns.ts';
import { send } from './requests/send.ts';
import { anonymous } from './walk/callers.ts';
import { documentsOf } from './walk/documents.ts';
import { later, openAccount } from './world/side.ts';
import { restore, type World } from './world/make-world.ts';
import { twoYards } from './world/two-yards.ts';

/**
 * Requests made from both documents with a seed (`FUZZ_SEED=n` makes others): most as somebody
 * would send them who means it, the rest with one thing wrong or by somebody who may not. The other
 * yard has words and ids that are nowhere else.
 */
const count = process.env['LONG_TESTS'] === '1' ? 20_000 : 10_000;
const seed = Number(process.env['FUZZ_SEED'] ?? 20261126);
const worldOf = twoYards();

const rejections: unknown[] = [];
const note = (reason: unknown): void => void rejections.push(reason);
beforeAll(() => void process.on('unhandledRejection', note));
afterAll(() => void process.off('unhandledRejection', note));

test(`${count} generated requests break nothing and show nothing of another yard`, async () => {
  const world = worldOf();
  const { all, schemas } = await documentsOf(world);
  const picks = choose(seed);
  const planted = ['bay', 'sander', 'ines', 'panel', 'epoxy'].map(
    (id) => `${world.there.mark}-${id}`,
  );
  const strangers = await Promise.all(
    Array.from({ length: 80 }, async (_, k) => ({
      ...anonymous,
      ...(await openAccount(world.database.owner, `stranger-${k}@nowhere.test`)),
      name: 'member of no yard',
      isKnown: true,
    })),
  );
  await world.database.owner.account.updateMany({
    data: { passwordHash: await hashPassword(testPassword) },
  });
  const pending = await beginSignIns(world, strangers[0].accountId);
  const make = makingOf({ world, schemas, choose: picks, strangers, pending, planted });
  const judge = judging(world, planted);
  const socket = subscriptions(world.url);
  const operations = all.map((operation) => {
    const rule = ruleOf(operation.face);
    if (!rule) throw new Error(`${operation.face} is not in the table`);
    return { operation, rule };
  });

  const turns = turnsOf(operations, count);
  const made = turns.map(({ operation, rule, manner }) => make(operation, rule, manner));
  const faults: string[] = [];
  const reached = new Set<string>();
  let passed = 0;
  let accepted = 0;
  const begun = performance.now();
  await inTurns(made, 4, async (one, k) => {
    if (k % 2_000 === 0) await restore(world, strangers);
    const answer =
      one.operation.kind === 'subscription'
        ? await socket.first(one.request)
        : await send(world.app, one.request);
    const verdict = judge(one, answer);
    if (verdict.fault !== null) faults.push(`${nameOf(one, k)}: ${verdict.fault}`);
    if (verdict.passed) {
      passed += 1;
      reached.add(one.operation.face);
      if (answer.status < 300) accepted += 1;
    }
    if (one.rule.operation === 'access-settings.update') await restore(world, strangers);
  });
  await socket.close();
  const seconds = Math.round((performance.now() - begun) / 1000);
  process.stdout.write(
    `fuzz: seed ${seed}, ${count} requests of ${operations.length} operations in ${seconds} s; ` +
      `${passed} passed validation, ${accepted} of them were carried out\n`,
  );
  expect(faults.slice(0, 20)).toEqual([]);
  expect(rejections).toEqual([]);
  expect(passed).toBeGreaterThanOrEqual(count / 2);
  expect(all.map(({ face }) => face).filter((face) => !reached.has(face))).toEqual([]);
}, 600_000);

/** Sign-ins whose password was right: five codes may be tried in each. */
async function beginSignIns({ database }: World, accountId: string): Promise<string[]> {
  const tokens = Array.from({ length: 100 }, () => newToken());
  await database.owner.pendingSignIn.createMany({
    data: tokens.map((token) => ({ accountId, tokenHash: hashOf(token), expiresAt: later() })),
  });
  return tokens;
}

const nameOf = ({ operation, caller, request }: Made, k: number): string =>
  `request ${k}, ${operation.face} by ${caller.name}: ${request.method} ${request.url} ${(request.body ?? '').slice(0, 300)}`;
