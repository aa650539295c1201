import { randomUUID } from 'node:crypto';
import fastify from 'fastify';
import pg from 'pg';
import { z } from 'zod';
import { startApi } from '../../../apps/api/src/main.ts';
import { onStage } from '../access/stage.ts';
import { quantile, type Row } from '../bench.ts';
import { asked, idOf } from './ask.ts';
import { about, recorded, replay, type Statement } from './recorded.ts';
import { claimableOf, fill, type Claimable } from './yard.ts';

/** Phones that claim at once. */
const atOnce = 16;
const bursts = 12;
/** Tasks that are claimed in a burst, each once, and then given back. */
const mostTasks = 80;

type Take = (one: Claimable) => Promise<string>;
type GiveBack = (claimId: string, one: Claimable) => Promise<unknown>;

interface Burst {
  readonly times: readonly number[];
  readonly seconds: number;
}

/** Claims all tasks, so many at once; gives them back one by one, which does not count. */
async function burst(tasks: readonly Claimable[], take: Take, giveBack: GiveBack): Promise<Burst> {
  const times: number[] = [];
  const claims: [string, Claimable][] = [];
  const left = [...tasks];
  const phone = async (): Promise<void> => {
    for (let one = left.pop(); one !== undefined; one = left.pop()) {
      const begun = performance.now();
      claims.push([await take(one), one]);
      times.push(performance.now() - begun);
    }
  };
  const begun = performance.now();
  await Promise.all(Array.from({ length: atOnce }, phone));
  const seconds = (performance.now() - begun) / 1000;
  for (const [claimId, one] of claims) await giveBack(claimId, one);
  return { times, seconds };
}

interface Recording {
  readonly taskId: string;
  readonly claimId: string;
  readonly claim: readonly Statement[];
  readonly release: readonly Statement[];
}

const bodySchema = z.object({ taskId: z.string(), claimId: z.string() });

/** A handler that sends for another task what the service sent for one. */
async function bareServer(pool: pg.Pool, kept: Recording) {
  const bare = fastify();
  for (const verb of ['claim', 'release'] as const) {
    bare.post(`/${verb}`, async ({ body }) => {
      const { taskId, claimId } = bodySchema.parse(body);
      const words = new Map([
        [kept.taskId, taskId],
        [kept.claimId, claimId],
      ]);
      await replay(pool, about(kept[verb], words));
      return { id: claimId };
    });
  }
  return { bare, address: await bare.listen({ port: 0 }) };
}

/** Claims of a yard's tasks by many at once, beside a handler that sends the very same statements. */
export function claims(tasks: number): Promise<Row> {
  return onStage(async (stage) => {
    const database = await stage.database('live');
    const { yard, foreman } = await fill(database, tasks);
    const api = await startApi({ databaseUrl: database.serviceUrl, port: 0 });
    const pool = new pg.Pool({ connectionString: database.serviceUrl, max: 10 });
    const base = `${api.url}/api/v1/yards/${yard.id}`;
    const { token } = foreman;
    const take: Take = async ({ taskId, crew }) =>
      idOf(await asked(`${base}/tasks/${taskId}/claims`, token, { crew }));
    const giveBack: GiveBack = (id) => asked(`${base}/claims/${id}/release`, token, {});
    let stop: (() => Promise<void>) | null = null;
    try {
      const list = await asked(`${base}/ready?first=1000`, token);
      const [model, ...others] = claimableOf(yard, list);
      // Of those alike: the same words about another task, and the same people.
      const like = others.filter(({ crew }) => crew.join() === model.crew.join());
      const chosen = like.slice(0, mostTasks);
      await giveBack(await take(model), model);
      const claimed = await recorded(() => take(model));
      const released = await recorded(() => giveBack(claimed.result, model));
      const { bare, address } = await bareServer(pool, {
        taskId: model.taskId,
        claimId: claimed.result,
        claim: claimed.statements,
        release: released.statements,
      });
      stop = () => bare.close();
      const bareTake: Take = async ({ taskId }) =>
        idOf(await asked(`${address}/claim`, token, { taskId, claimId: randomUUID() }));
      const bareGiveBack: GiveBack = (claimId, { taskId }) =>
        asked(`${address}/release`, token, { taskId, claimId });
      const own: Burst[] = [];
      const theirs: Burst[] = [];
      for (let k = -2; k < bursts; k += 1) {
        const first = await burst(chosen, take, giveBack);
        const second = await burst(chosen, bareTake, bareGiveBack);
        if (k < 0) continue;
        own.push(first);
        theirs.push(second);
      }
      return {
        tasks,
        claimed: chosen.length,
        statements: claimed.statements.length,
        ...figures('', own),
        ...figures('bare', theirs),
      };
    } finally {
      await stop?.();
      await pool.end();
      await api.close();
    }
  });
}

function figures(name: string, all: readonly Burst[]): Record<string, number> {
  const times = all.flatMap((one) => one.times);
  return {
    [`${name}PerSecond`]: times.length / all.reduce((sum, { seconds }) => sum + seconds, 0),
    [`${name}Ms`]: quantile(times, 0.5),
    [`${name}P99Ms`]: quantile(times, 0.99),
  };
}
