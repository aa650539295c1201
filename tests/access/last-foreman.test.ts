import { expect, test } from 'vitest';
import { withClient } from '#persistence/roles.ts';
import { smallYardApi } from '../support/small-yard-api.ts';

const { api, database, tokens } = smallYardApi();

test('two foremen who take the role from each other at once leave one', async () => {
  await database.owner.member.updateMany({
    where: { yardId: 'small', id: 'bram' },
    data: { roles: ['foreman', 'builder'] },
  });
  const demote = async (id: string, token: string) => {
    const path = `/yards/small/people/${id}`;
    const { headers } = await api.rest('GET', path, { token });
    return () =>
      api.rest('PATCH', path, {
        token,
        headers: { 'if-match': headers.get('etag') ?? '' },
        body: { roles: ['builder'] },
      });
  };
  const both = [await demote('bram', tokens.foreman), await demote('ines', tokens.builder)];
  const answers = await withClient(database.ownerUrl, async (keeper) => {
    // Both have changed their row and wait for the yard's log.
    await keeper.query(
      "BEGIN; SELECT pg_advisory_xact_lock(hashtextextended('curewright.event:small', 0))",
    );
    const asked = Promise.all(both.map((ask) => ask()));
    await expect
      .poll(async () => {
        const { rows } = await keeper.query<{ waiting: number }>(
          `SELECT count(*)::int AS waiting FROM pg_locks JOIN pg_database d ON d.oid = database
           WHERE datname = current_database() AND locktype = 'advisory' AND NOT granted`,
        );
        return rows[0].waiting;
      })
      .toBeGreaterThanOrEqual(both.length);
    await keeper.query('ROLLBACK');
    return asked;
  });
  expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
  const left = await database.owner.member.count({
    where: { yardId: 'small', roles: { has: 'foreman' }, accountId: { not: null } },
  });
  expect(left).toBe(1);
});
