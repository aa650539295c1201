import { randomUUID } from 'node:crypto';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { inYard, service } from '#persistence/client.ts';
import { loadWorkload, saveTasks } from '#persistence/workload/store.ts';
import { loadYard, saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { generateYard } from '#seeds/generate/yard.ts';
import { type Api, startApi } from '../../../apps/api/src/main.ts';
import type { TestDatabase } from '../../support/database.ts';
import { publishPlan } from '../../support/published-plan.ts';
import type { Row } from '../bench.ts';
import { inTurn } from './in-turn.ts';
import { onStage } from './stage.ts';

const rounds = 100;

/**
 * The ready list of a yard of about so many tasks with a published plan, asked by its foreman, with
 * the second wall and without: two databases of the same content, in one of which the owner switched
 * row security off; and the reads behind it, as two transactions of the same code.
 */
export function readyBesides(tasks: number): Promise<Row> {
  return onStage(async (stage) => {
    const walled = await stage.database('walled');
    const { yardId, token, accountId } = await filled(walled, tasks);
    await stage.leave(walled);
    const [wall, open] = [
      await stage.database('wall', 'walled'),
      await stage.database('open', 'walled'),
    ];
    const apis: Api[] = [];
    try {
      for (const { serviceUrl } of [wall, open]) {
        apis.push(await startApi({ databaseUrl: serviceUrl, port: 0 }));
      }
      // Only now: the service does not start without.
      await withoutWall(open);
      const ask = (api: Api) => async (): Promise<void> => {
        const { statusCode } = await api.app.inject({
          url: `/api/v1/yards/${yardId}/ready`,
          headers: { authorization: `Bearer ${token}` },
        });
        if (statusCode !== 200)
          throw new Error(`the ready list is answered with ${String(statusCode)}`);
      };
      const list = await inTurn({ wall: ask(apis[0]), open: ask(apis[1]) }, rounds);
      const member = { as: 'member', yardId, accountId, sees: 'all' } as const;
      const read = (database: TestDatabase) => (): Promise<unknown> =>
        inYard(database.service, member, async (tx) => [
          await loadYard(tx, yardId),
          await loadWorkload(tx, yardId),
        ]);
      const reads = await inTurn({ wall: read(wall), open: read(open) }, rounds);
      return {
        tasks,
        listMs: list('wall'),
        listOpenMs: list('open'),
        readMs: reads('wall'),
        readOpenMs: reads('open'),
      };
    } finally {
      for (const api of apis) await api.close();
    }
  });
}

/** A yard with its tasks and a published plan, whose foreman has a session. */
async function filled(
  database: TestDatabase,
  tasks: number,
): Promise<{ yardId: string; token: string; accountId: string }> {
  const yard = generateYard({ tasks, boats: 3, tightness: 'loose', season: 'warm', seed: 1 });
  const yardId = yard.id;
  await inYard(
    database.service,
    service(yardId),
    async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, yardId, makeWorkload(yard));
    },
    { timeout: 120_000 },
  );
  await publishPlan(database, yardId);
  const accountId = randomUUID();
  const token = newToken();
  const expiresAt = new Date(Date.now() + 86_400_000);
  await database.owner.account.create({ data: { id: accountId, email: 'f@yard.test', name: 'F' } });
  await database.owner.session.create({ data: { tokenHash: hashOf(token), accountId, expiresAt } });
  const foreman = yard.people.find(({ roles }) => roles.includes('foreman'));
  if (!foreman) throw new Error('a generated yard has a foreman');
  await database.owner.member.update({
    where: { yardId_id: { yardId, id: foreman.id } },
    data: { accountId },
  });
  return { yardId, token, accountId };
}

async function withoutWall({ owner }: TestDatabase): Promise<void> {
  const tables = await owner.$queryRaw<{ name: string }[]>`
    SELECT relname AS name FROM pg_class
    WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' AND relrowsecurity`;
  if (tables.length === 0) throw new Error('there was no wall to take away');
  for (const { name } of tables) {
    await owner.$executeRawUnsafe(`ALTER TABLE "${name}" DISABLE ROW LEVEL SECURITY`);
  }
}
