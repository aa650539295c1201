import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { withClient } from '#persistence/roles.ts';
import type { Answer } from '../support/api.ts';
import { smallYardApi } from '../support/small-yard-api.ts';
import { until } from '../support/until.ts';

const { api, database, tokens } = smallYardApi();

const keyed = (key: string, path: string, body: unknown): Promise<Answer> =>
  api.rest('POST', `/yards/small/${path}`, {
    token: tokens.foreman,
    body,
    headers: { 'idempotency-key': key },
  });
const tool = (id: string) => ({ id, name: id, count: 1 });
const eventsOf = (subjectId: string): Promise<number> =>
  database.owner.event.count({ where: { yardId: 'small', subjectId } });
const keptUnder = (key: string) =>
  database.owner.idempotencyKey.findMany({ where: { yardId: 'small', key } });

/** Over a connection of its own: within a transaction the activity stays as it was first read. */
const isMet = (query: string): Promise<boolean> =>
  withClient(database.adminUrl, async (admin) => (await admin.query(query)).rowCount === 1);

const waiting = `SELECT pid FROM pg_stat_activity WHERE datname = current_database()
  AND wait_event_type = 'Lock' AND wait_event = 'relation'`;

describe('the answer', () => {
  // Of PostgreSQL's rows: `xmin` is the id of the transaction that has written it.
  test('is written in the transaction of the change and of its event', async () => {
    const commands: [string, unknown, string][] = [
      ['tools', tool('pump'), 'pump'],
      ['skills', { id: 'rigging', name: 'Rigging' }, 'rigging'],
      ['people', { id: 'klara', name: 'Klara', roles: ['builder'] }, 'klara'],
      ['people/klara/invitations', {}, 'klara'],
      [
        'readings',
        { readings: [{ space: 'bay', at: '2026-01-05T08:00:00Z', celsius: 19 }] },
        'bay',
      ],
      ['plan-runs', { seed: 3 }, ''],
    ];
    for (const [path, body, subjectId] of commands) {
      const key = `same-${path}`;
      const { status, body: answer } = await keyed(key, path, body);
      expect([path, status < 300]).toEqual([path, true]);
      const [{ together, kept }] = await database.owner.$queryRaw<
        [{ together: boolean; kept: unknown }]
      >`
        SELECT k.body AS kept, EXISTS (
          SELECT FROM event e WHERE e.yard_id = k.yard_id AND e.xmin = k.xmin
          AND e.subject_id = ${subjectId === '' ? String(answer.id) : subjectId}) AS together
        FROM idempotency_key k WHERE k.yard_id = 'small' AND k.key = ${key}`;
      expect([path, together]).toEqual([path, true]);
      const shown = path.endsWith('invitations') ? { ...answer, link: null } : answer;
      expect(kept).toEqual(shown);
    }
  });

  test('is the same for all who ask at once, and it is done once', async () => {
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => keyed('at-once', 'tools', tool('lamp'))),
    );
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([201]));
    for (const { body } of answers) expect(body).toEqual(answers[0].body);
    expect(await eventsOf('lamp')).toBe(1);
  });

  test('is not that to another command, but is to the same at another moment of the phone', async () => {
    const reading = { space: 'hull', at: '2026-01-05T08:00:00Z', celsius: 5 };
    const send = (sentAt: string, celsius = 5): Promise<Answer> =>
      keyed('phone', 'readings', { sentAt, readings: [{ ...reading, celsius }] });
    const now = (aheadMs: number): string => new Date(Date.now() + aheadMs).toISOString();
    const first = await send(now(0));
    expect(first.status).toBe(201);
    expect((await send(now(5_000))).body).toEqual(first.body);
    expect(await send(now(0), 6)).toMatchObject({
      status: 409,
      body: { code: 'command.repeated' },
    });
  });

  test('holds where what was asked for can no longer be', async () => {
    const first = await keyed('gone', 'tools', tool('jig'));
    await database.owner.tool.deleteMany({ where: { yardId: 'small', id: 'jig' } });
    expect(await keyed('gone', 'tools', tool('jig'))).toMatchObject({
      status: 201,
      body: first.body,
    });
    expect(await database.owner.tool.count({ where: { yardId: 'small', id: 'jig' } })).toBe(0);
  });
});

describe('a key', () => {
  test('of what was refused, or only read, is free', async () => {
    const refused = await keyed('again', 'tools', { ...tool('pump'), name: 'Second' });
    expect(refused).toMatchObject({ status: 409, body: { code: 'record.exists' } });
    expect(await keptUnder('again')).toEqual([]);
    expect((await keyed('again', 'tools', tool('saw'))).status).toBe(201);
    const faulty = await keyed('faulty', 'tools', { id: 'x' });
    expect(faulty.status).toBe(422);
    expect(await keptUnder('faulty')).toEqual([]);
  });

  test('is not blocked by a first that died before its commit, and waits for one that lives', async () => {
    await withClient(database.adminUrl, async (admin) => {
      // What the command waits for once it has its key: nobody can add tools.
      await admin.query('BEGIN');
      await admin.query('LOCK TABLE tool IN ACCESS EXCLUSIVE MODE');
      const first = keyed('died', 'tools', tool('vice'));
      await until(() => isMet(`SELECT 1 FROM (${waiting}) AS its`));
      const second = keyed('died', 'tools', tool('vice'));
      await until(() =>
        isMet(`SELECT 1 FROM pg_locks WHERE locktype = 'advisory' AND NOT granted
          AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`),
      );
      // The end of the first's connection, as of a process that is killed.
      await withClient(database.adminUrl, (other) =>
        other.query(`SELECT pg_terminate_backend(pid) FROM (${waiting}) AS its`),
      );
      expect((await first).status).toBe(503);
      await admin.query('ROLLBACK');
      expect((await second).status).toBe(201);
      expect(await eventsOf('vice')).toBe(1);
    });
  });

  test('of a mutation that answers true answers it again', async () => {
    const invited = await keyed('invite', 'people/klara/invitations', {});
    const id = z.string().parse(invited.body.id);
    const revoke = () =>
      api.graphql(
        'mutation ($id: ID!) { revokeInvitation(yardId: "small", id: $id) }',
        { id },
        { token: tokens.foreman, headers: { 'idempotency-key': 'revoke' } },
      );
    expect((await revoke()).body).toEqual({ data: { revokeInvitation: true } });
    expect((await revoke()).body).toEqual({ data: { revokeInvitation: true } });
    const [{ together }] = await database.owner.$queryRaw<[{ together: boolean }]>`
      SELECT EXISTS (SELECT FROM event e WHERE e.xmin = k.xmin) AS together
      FROM idempotency_key k WHERE k.key = 'revoke revokeInvitation' AND k.body = 'true'::jsonb`;
    expect(together).toBe(true);
  });

  test('that nobody repeats any more is forgotten after two weeks', async () => {
    const old = new Date(Date.now() - 15 * 86_400_000);
    await keyed('old', 'tools', tool('clamp'));
    await database.owner.idempotencyKey.updateMany({
      where: { key: 'old' },
      data: { createdAt: old },
    });
    await database.service.$queryRaw`SELECT purge_access(60)`;
    expect(await keptUnder('old')).toEqual([]);
    expect(await keptUnder('at-once')).toHaveLength(1);
  });
});
