import fastify from 'fastify';
import pg from 'pg';
import { startApi } from '../../../apps/api/src/main.ts';
import type { Row } from '../bench.ts';
import { inTurn } from '../access/in-turn.ts';
import { onStage } from '../access/stage.ts';
import { asked, idOf } from './ask.ts';
import { recorded, replay } from './recorded.ts';
import { type Claimable, claimableOf, fill } from './yard.ts';

const rounds = 300;

/**
 * The ready list that a foreman asks for, over HTTP, beside a handler that sends the very same
 * statements and answers with the same object: while nothing happens in the yard, and while a task
 * is claimed or given back before every look.
 */
export function readyList(tasks: number): Promise<Row> {
  return onStage(async (stage) => {
    const database = await stage.database('live');
    const { yard, foreman } = await fill(database, tasks);
    const api = await startApi({ databaseUrl: database.serviceUrl, port: 0 });
    const pool = new pg.Pool({ connectionString: database.serviceUrl, max: 10 });
    const bare = fastify();
    const base = `${api.url}/api/v1/yards/${yard.id}`;
    const list = `${base}/ready`;
    try {
      const cold = performance.now();
      await asked(list, foreman.token);
      const firstMs = performance.now() - cold;
      const { result, statements } = await recorded(() => asked(list, foreman.token));
      bare.get('/ready', async () => {
        await replay(pool, statements);
        return result;
      });
      const address = await bare.listen({ port: 0 });
      const sides = {
        own: () => asked(list, foreman.token),
        bare: () => asked(`${address}/ready`, foreman.token),
      };
      const quiet = await inTurn(sides, rounds);
      const busy = await inTurn(
        sides,
        rounds,
        busily(base, foreman.token, claimableOf(yard, result)),
      );
      return {
        tasks,
        statements: statements.length,
        kilobytes: JSON.stringify(result).length / 1024,
        firstMs,
        ...figures('quiet', quiet),
        ...figures('busy', busy),
      };
    } finally {
      await bare.close();
      await pool.end();
      await api.close();
    }
  });
}

const figures = (
  when: string,
  ms: (side: 'own' | 'bare', q?: number) => number,
): Record<string, number> => ({
  [`${when}Ms`]: ms('own'),
  [`${when}P99Ms`]: ms('own', 0.99),
  [`${when}BareMs`]: ms('bare'),
  [`${when}BareP99Ms`]: ms('bare', 0.99),
});

/** Claims a task of the list, and gives it back the next time. */
function busily(base: string, token: string, tasks: readonly Claimable[]): () => Promise<unknown> {
  let claim: string | null = null;
  let next = 0;
  return async () => {
    if (claim !== null) {
      await asked(`${base}/claims/${claim}/release`, token, {});
      claim = null;
      return;
    }
    const { taskId, crew } = tasks[next % tasks.length];
    next += 1;
    claim = idOf(await asked(`${base}/tasks/${taskId}/claims`, token, { crew }));
  };
}
