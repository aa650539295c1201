import { describe, expect, test } from 'vitest';
import { readDocument } from '../requests/operations.ts';
import { wage } from '../world/yard-file.ts';
import { type GroundOf, pathsOf } from './ground.ts';

export function properties(groundOf: GroundOf): void {
  describe('API3:2023 Broken Object Property Level Authorization', () => {
    test.each([
      ['the account behind a person', 'people', { accountId: crypto.randomUUID() }],
      ['the yard of a record', 'people', { yardId: 'elsewhere' }],
      ['the count of changes', 'people', { revision: 999 }],
      ['an id once given', 'boats', { id: 'other' }],
      ['the settings of access', null, { secondFactorRequired: false, ownersSeeCrew: true }],
    ])('nobody sets %s', async (_what, list, extra) => {
      const { calls, here, tokenOf, at } = groundOf();
      const token = tokenOf('foreman');
      const id = here.records.get(list === 'people' ? 'person' : 'boat')?.at(0)?.id ?? '';
      const path = list === null ? `yards/${here.yardId}` : at(`${list}/${id}`);
      const { headers } = await calls.call('GET', path, { token });
      const guarded = { 'if-match': String(headers.etag) };
      const told = await calls.call('PATCH', path, { token, body: extra, headers: guarded });
      expect([told.status, pathsOf(told)]).toEqual([422, Object.keys(extra)]);
    });

    test('nobody gives themselves a role with what is their own', async () => {
      const { calls, world } = groundOf();
      const { token } = world.stranger;
      const body = { name: 'Me', roles: ['foreman'], memberships: [], email: 'x@yard.test' };
      const { headers } = await calls.call('GET', 'me', { token });
      const guarded = { 'if-match': String(headers.etag) };
      const told = await calls.call('PATCH', 'me', { token, body, headers: guarded });
      expect([told.status, pathsOf(told)]).toEqual([422, ['roles', 'memberships', 'email']]);
    });

    test('wages are in nothing that an owner reads', async () => {
      const { calls, here, tokenOf, at } = groundOf();
      const token = tokenOf('owner');
      const { text } = await calls.call('GET', '/api/v1/openapi.json');
      const reads = readDocument(JSON.parse(text)).operations.filter(
        ({ method, path }) =>
          method === 'GET' && path.includes('{yardId}') && !path.endsWith('/events'),
      );
      const boat = `${here.mark}-petrel`;
      const shown: string[] = [];
      for (const { path } of reads) {
        const filled = path.replace('{yardId}', here.yardId).replaceAll(/\{\w+\}/g, boat);
        const told = await calls.call('GET', filled, { token });
        if (told.status === 200) shown.push(path);
        expect([path, told.text.includes(String(wage))]).toEqual([path, false]);
      }
      expect(shown.length).toBeGreaterThan(3);
      const foreman = await calls.call('GET', at('people'), { token: tokenOf('foreman') });
      expect(foreman.text).toContain(String(wage));
      const query = `{ people(yardId: "${here.yardId}") { items { hourlyCost } } }`;
      expect((await calls.graphql(query, { token })).code).toBe('access.role');
    });
  });
}
