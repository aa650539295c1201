import { describe, expect, test } from 'vitest';
import type { GroundOf } from './ground.ts';

/** Who may do what, operation by operation: walk.test.ts. */
export function functions(groundOf: GroundOf): void {
  describe('API5:2023 Broken Function Level Authorization', () => {
    test('no other way of writing an address leads past the guard', async () => {
      const { calls, here } = groundOf();
      const { yardId } = here;
      const ways = [
        `/api/v1/yards/${yardId}/boats/`,
        `/api/v1//yards/${yardId}/boats`,
        `//api/v1/yards/${yardId}/boats`,
        `/API/v1/yards/${yardId}/BOATS`,
        `/api/v1/health/../yards/${yardId}/boats`,
        `/api/v1/health/%2e%2e/yards/${yardId}/boats`,
        `/api/v1/yards/${yardId}/boats;x=1`,
        `/api/v1/yards/${yardId}/boats%00`,
        `/api/v1/yards/${encodeURIComponent(`${yardId}/boats`)}`,
        `/api/v1/yards/${yardId}/%62oats`,
      ];
      for (const url of ways) {
        for (const method of ['GET', 'HEAD', 'POST', 'DELETE', 'OPTIONS']) {
          const { status, text } = await calls.call(method, url);
          expect([method, url, status]).toEqual([
            method,
            url,
            expect.toSatisfy((code: number) => [400, 401, 404, 422].includes(code)) as number,
          ]);
          expect(text).not.toContain(here.secret);
        }
      }
    });

    test('no header turns one method into another', async () => {
      const { calls, tokenOf, at } = groundOf();
      const token = tokenOf('builder');
      for (const name of ['x-http-method-override', 'x-http-method', 'x-method-override']) {
        const headers = { [name]: 'GET' };
        const told = await calls.call('POST', at('skills'), { token, headers, body: {} });
        expect([name, told.code]).toEqual([name, 'access.role']);
        const read = await calls.call('GET', at('skills'), {
          token,
          headers: { [name]: 'DELETE' },
        });
        expect([name, read.status]).toEqual([name, 200]);
      }
    });

    test('an address changes nothing, whatever query stands in it', async () => {
      const { calls, world, here, tokenOf } = groundOf();
      const query = `mutation { createSkill(yardId: "${here.yardId}", input: {id: "by-get", name: "X"}) { id } }`;
      const token = tokenOf('foreman');
      const told = await calls.call('GET', `/graphql?query=${encodeURIComponent(query)}`, {
        token,
      });
      expect(told.code ?? 'refused').not.toBe('service.fault');
      expect(await world.database.owner.skill.count({ where: { id: 'by-get' } })).toBe(0);
    });

    test('one mutation that is allowed carries no other with it', async () => {
      const { calls, world, here, tokenOf } = groundOf();
      const query = `mutation {
        a: createSkill(yardId: "${here.yardId}", input: {id: "carried", name: "X"}) { id }
        b: addReadings(yardId: "${here.yardId}", input: {readings: []}) { items { id } }
      }`;
      const { code } = await calls.graphql(query, { token: tokenOf('builder') });
      expect(code).toBe('access.role');
      expect(await world.database.owner.skill.count({ where: { id: 'carried' } })).toBe(0);
    });
  });
}
