import { describe, expect, test } from 'vitest';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { later } from '../world/side.ts';
import type { GroundOf } from './ground.ts';

/** Sign-in, passwords and second factors at length: accounts, totp and passkeys.test.ts. */
export function authentication(groundOf: GroundOf): void {
  describe('API2:2023 Broken Authentication', () => {
    test('only a whole token in its place opens anything', async () => {
      const { calls, tokenOf, at } = groundOf();
      const token = tokenOf('foreman');
      const unsigned = `${btoa('{"alg":"none"}')}.${btoa('{"sub":"foreman"}')}.`;
      const tries: Record<string, string>[] = [
        { authorization: `Basic ${btoa(`foreman:${token}`)}` },
        { authorization: `Bearer ${token.slice(0, -1)}` },
        { authorization: `Bearer ${token}x` },
        { authorization: `Bearer cwk_${token}` },
        { authorization: `Bearer ${unsigned}` },
        { authorization: 'Bearer ' },
        { 'x-access-token': token },
        { cookie: `other=${token}` },
      ];
      for (const headers of tries) {
        const { status, code } = await calls.call('GET', at('boats'), { headers });
        expect([headers, status, code]).toEqual([headers, 401, 'access.sign-in']);
      }
      for (const name of ['token', 'access_token', 'authorization']) {
        const { status } = await calls.call('GET', at(`boats?${name}=${token}`));
        expect([name, status]).toEqual([name, 401]);
      }
    });

    test('a token is stored nowhere, and ends by itself', async () => {
      const { calls, here, world, tokenOf } = groundOf();
      const { owner } = world.database;
      const { accountId } = here.people.foreman;
      const day = 24 * 60 * 60_000;
      const createdAt = new Date(Date.now() - 2 * day);
      const ended = { createdAt, expiresAt: new Date(Date.now() - 1_000) };
      const idle = { createdAt, expiresAt: later(), lastSeenAt: new Date(Date.now() - day) };
      for (const end of [ended, idle]) {
        const token = newToken();
        await owner.session.create({ data: { tokenHash: hashOf(token), accountId, ...end } });
        expect((await calls.call('GET', 'me', { token })).status).toBe(401);
      }
      const sessions = await owner.session.findMany();
      const kept = sessions.map(({ tokenHash, ...row }) => [
        Buffer.from(tokenHash).toString('base64url'),
        row,
      ]);
      expect(kept.length).toBeGreaterThan(0);
      expect(JSON.stringify(kept)).not.toContain(tokenOf('foreman'));
    });

    test('guessing a password is slowed down, and tells not whether there is such an account', async () => {
      const { strictCalls, here } = groundOf();
      const guess = async (email: string): Promise<string[]> => {
        const told: string[] = [];
        for (let k = 0; k < 4; k += 1) {
          const body = { email, password: `a wrong password ${String(k)}` };
          const { status, code, headers } = await strictCalls.call('POST', 'sessions', { body });
          const waits = Number(headers['retry-after'] ?? 0) > 0;
          told.push(`${String(status)} ${code ?? ''} ${waits ? 'later' : ''}`.trim());
        }
        return told;
      };
      const known = await guess(`ines@${here.mark}.test`);
      expect(known).toEqual(await guess('nobody@yard.test'));
      expect([known[0], known[3]]).toEqual(['401 access.credentials', '429 access.often later']);
    });
  });
}
