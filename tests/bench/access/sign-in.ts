import { argon2Sync, randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hashPassword, passwordMatches } from '../../../apps/api/src/platform/access/password.ts';
import { startApi } from '../../../apps/api/src/main.ts';
import { timesBeside } from '../../access/walk/timing.ts';
import { makeWorld } from '../../access/world/make-world.ts';
import { quantile, type Row } from '../bench.ts';
import { inTurn } from './in-turn.ts';
import { onStage } from './stage.ts';

const password = 'four words that nobody expects';
const median = (times: readonly number[]): number => quantile(times, 0.5);

/** Our hashing beside the one that Node brings along, at the same parameters. */
export async function hashing(): Promise<Row> {
  const stored = await hashPassword(password);
  const [memory, passes, parallelism] = ['m', 't', 'p'].map((name) => {
    const found = new RegExp(`[$,]${name}=(\\d+)`).exec(stored);
    if (found === null) throw new Error(`no ${name} in a stored password`);
    return Number(found[1]);
  });
  const message = Buffer.from(password);
  const ms = await inTurn(
    {
      hash: () => hashPassword(password),
      verify: async () => {
        if (!(await passwordMatches(stored, password))) throw new Error('the password was right');
      },
      peer: () => {
        const nonce = randomBytes(16);
        argon2Sync('argon2id', { message, nonce, parallelism, tagLength: 32, memory, passes });
        return Promise.resolve();
      },
    },
    60,
  );
  return { memory, passes, hashMs: ms('hash'), verifyMs: ms('verify'), peerMs: ms('peer') };
}

/** A sign-in that is right, one with a wrong password, one of nobody; and what a session costs a call. */
export function signingIn(): Promise<Row> {
  return onStage(async (stage) => {
    const database = await stage.database('sign_in');
    const email = 'somebody@yard.test';
    await database.owner.account.create({
      data: { email, name: 'Somebody', passwordHash: await hashPassword(password) },
    });
    const api = await startApi({ databaseUrl: database.serviceUrl, port: 0 });
    try {
      const enter = async (who: string, secret: string, expected: number): Promise<string> => {
        const answer = await api.app.inject({
          method: 'POST',
          url: '/api/v1/sessions',
          payload: { email: who, password: secret },
        });
        if (answer.statusCode !== expected) {
          throw new Error(`a sign-in is answered with ${String(answer.statusCode)}`);
        }
        return answer.json<{ token?: string }>().token ?? '';
      };
      const token = await enter(email, password, 201);
      const get = (url: string) => async (): Promise<void> => {
        const headers = { authorization: `Bearer ${token}` };
        const { statusCode } = await api.app.inject({ url: `/api/v1/${url}`, headers });
        if (statusCode !== 200) throw new Error(`${url} is answered with ${String(statusCode)}`);
      };
      const ms = await inTurn(
        {
          right: () => enter(email, password, 201),
          wrong: () => enter(email, `${password}!`, 401),
          nobody: () => enter('nobody@yard.test', password, 401),
          me: get('me'),
          health: get('health'),
        },
        120,
      );
      return {
        rightMs: ms('right'),
        wrongMs: ms('wrong'),
        nobodyMs: ms('nobody'),
        meMs: ms('me'),
        healthMs: ms('health'),
      };
    } finally {
      await api.close();
    }
  });
}

/** Reads of another yard's record beside reads of a missing one: how far the medians are apart. */
export function besideMissing(): Promise<Row> {
  return onStage(async (stage) => {
    const mailFolder = await mkdtemp(join(tmpdir(), 'curewright-mail-'));
    const { world, close } = await makeWorld({
      database: await stage.database('walk'),
      mailFolder,
    });
    try {
      await timesBeside(world, 5);
      const beside = await timesBeside(world, 101);
      const ratios = beside.map(({ theirs, missing }) => median(theirs) / median(missing));
      const off = ratios.map((ratio) => Math.abs(ratio - 1));
      const worst = off.indexOf(Math.max(...off));
      return {
        operations: beside.length,
        worstRatio: ratios[worst],
        worstFace: beside[worst].face,
        medianRatio: median(ratios),
      };
    } finally {
      await close();
      await rm(mailFolder, { recursive: true, force: true });
    }
  });
}
