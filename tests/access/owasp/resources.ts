import { describe, expect, test } from 'vitest';
import type { GroundOf } from './ground.ts';

/** Each limit with its exact edge: limits.test.ts. */
export function resources(groundOf: GroundOf): void {
  describe('API4:2023 Unrestricted Resource Consumption', () => {
    test('bodies and pages have an end', async () => {
      const { calls, tokenOf, at } = groundOf();
      const token = tokenOf('foreman');
      const huge = JSON.stringify({ id: 'a', name: 'x'.repeat(8_000_000) });
      expect((await calls.call('POST', at('skills'), { token, body: huge })).status).toBe(413);
      const page = await calls.call('GET', at('skills?first=100000'), { token });
      expect([page.status, page.code]).toEqual([422, 'input.field']);
    });

    test('queries have a depth, a breadth, and come one at a time', async () => {
      const { calls, here, tokenOf } = groundOf();
      const token = tokenOf('foreman');
      const boats = `boats(yardId: "${here.yardId}"`;
      const aliases = Array.from(
        { length: 500 },
        (_, k) => `a${String(k)}: ${boats}) { items { id } }`,
      );
      const deep = `${'{ fields { type '.repeat(12)}{ name }${' } }'.repeat(12)}`;
      const asked = [
        `{ ${boats}, first: 100000) { items { id } } }`,
        `{ ${aliases.join(' ')} }`,
        `{ __schema { types ${deep} } }`,
      ];
      for (const query of asked) {
        const { code, text } = await calls.graphql(query, { token });
        expect([query.slice(0, 60), code]).toEqual([
          query.slice(0, 60),
          expect.stringMatching(/^input\./) as string,
        ]);
        expect(text.length).toBeLessThan(5_000);
        expect(text).not.toContain(`${here.mark}-petrel`);
      }
      const batch = JSON.stringify([{ query: '{ yards { items { id } } }' }]);
      const { text } = await calls.call('POST', '/graphql', { token, body: batch });
      expect(text).not.toContain(here.yardId);
    });

    test('a caller who asks without end is told to wait, and nobody else is', async () => {
      const { strictCalls, here, at } = groundOf();
      const ask = (token: string) => strictCalls.call('GET', at('skills'), { token });
      const answers = [];
      for (let k = 0; k < 30; k += 1) answers.push(await ask(here.keys.read));
      const last = answers.at(-1);
      expect(answers[0].status).toBe(200);
      expect([last?.status, last?.code]).toEqual([429, 'access.often']);
      expect(Number(last?.headers['retry-after'])).toBeGreaterThan(0);
      expect((await ask(here.keys.work)).status).toBe(200);
    });

    test('no statement runs for ever', async () => {
      const { world } = groundOf();
      const [setting] = await world.database.service.$queryRaw<{ statement_timeout: string }[]>`
        SHOW statement_timeout`;
      expect(setting.statement_timeout).toBe('15s');
    });
  });
}
