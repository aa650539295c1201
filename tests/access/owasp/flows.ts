import { describe, expect, test } from 'vitest';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { later, openAccount } from '../world/side.ts';
import type { GroundOf } from './ground.ts';

/** What a program could do so often or so quickly that somebody is harmed by it. */
export function flows(groundOf: GroundOf): void {
  describe('API6:2023 Unrestricted Access to Sensitive Business Flows', () => {
    test('of ten who take up one invitation at once, one comes in', async () => {
      const { calls, world, here } = groundOf();
      const { owner } = world.database;
      const token = newToken();
      await owner.invitation.create({
        data: {
          yardId: here.yardId,
          memberId: `${here.mark}-elin`,
          invitedById: here.people.foreman.memberId,
          tokenHash: hashOf(token),
          expiresAt: later(),
        },
      });
      const crowd = await Promise.all(
        Array.from({ length: 10 }, (_, k) => openAccount(owner, `crowd${String(k)}@yard.test`)),
      );
      const answers = await Promise.all(
        crowd.map((account) =>
          calls.call('POST', 'invitations/accept', { token: account.token, body: { token } }),
        ),
      );
      const codes = answers.map(({ status, code }) => (status < 300 ? 'in' : code)).sort();
      expect(codes).toEqual([...Array.from({ length: 9 }, () => 'access.link'), 'in']);
      const among = { in: crowd.map(({ accountId }) => accountId) };
      expect(await owner.member.count({ where: { accountId: among } })).toBe(1);
    });

    test('of two crews who claim one task at once, one has it', async () => {
      const { calls, world, here, tokenOf, at } = groundOf();
      const task = `${here.mark}-heron-panel.${here.mark}-lay-up`;
      const answers = await Promise.all(
        (['foreman', 'builder', 'foreman', 'builder'] as const).map((who) =>
          calls.call('POST', at(`tasks/${task}/claims`), {
            token: tokenOf(who),
            body: { crew: [here.people.builder.memberId] },
          }),
        ),
      );
      expect(answers.filter(({ status }) => status < 300).length).toBeLessThanOrEqual(1);
      const where = { yardId: here.yardId, taskId: task, status: 'open' as const };
      expect(await world.database.owner.claim.count({ where })).toBe(
        answers.filter(({ status }) => status < 300).length,
      );
    });

    test('a program publishes nothing with a key for a builder’s work', async () => {
      const { calls, here, at } = groundOf();
      const plan = here.records.get('plan')?.at(0)?.id ?? '';
      const publish = (token: string) => calls.call('POST', at(`plans/${plan}/publish`), { token });
      expect((await publish(here.keys.read)).code).toBe('access.scope');
      expect((await publish(here.keys.work)).code).toBe('access.scope');
      expect((await publish(here.keys.manage)).status).toBe(200);
    });

    test('a command sent again and again with its key is done once', async () => {
      const { calls, world, here, tokenOf, at } = groundOf();
      const sending = {
        token: tokenOf('foreman'),
        headers: { 'idempotency-key': crypto.randomUUID() },
        body: { seed: 11 },
      };
      const ids = new Set<unknown>();
      for (let k = 0; k < 5; k += 1) {
        ids.add((await calls.call('POST', at('plan-runs'), sending)).json.id);
      }
      expect(ids.size).toBe(1);
      const where = { yardId: here.yardId, seed: 11 };
      expect(await world.database.owner.planRun.count({ where })).toBe(1);
    });
  });
}
