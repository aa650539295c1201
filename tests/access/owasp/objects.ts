import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { type GroundOf, pathsOf } from './ground.ts';

const withoutInstance = (text: string): string => text.replace(/urn:uuid:[^"]+/, '');

/** That a record is reached by nobody else, in every operation, is shown by walk.test.ts. */
export function objects(groundOf: GroundOf): void {
  describe('API1:2023 Broken Object Level Authorization', () => {
    test('what a body refers to is looked for in the own yard only', async () => {
      const { calls, there, tokenOf, at } = groundOf();
      const token = tokenOf('foreman');
      const made = async (owner: string) =>
        calls.call('POST', at('boats'), { token, body: { id: 'decoy', name: 'Decoy', owner } });
      const { memberId } = there.people.owner;
      const theirs = await made(memberId);
      expect([theirs.status, theirs.code, pathsOf(theirs)]).toEqual([
        422,
        'yard.reference',
        ['owner'],
      ]);
      const missing = await made('nothing');
      expect(withoutInstance(missing.text).replaceAll('nothing', memberId)).toBe(
        withoutInstance(theirs.text),
      );
      expect((await calls.call('GET', at('boats/decoy'), { token })).status).toBe(404);
    });

    test('two yards in one query are judged each by itself', async () => {
      const { calls, here, there, tokenOf } = groundOf();
      const query = `{ a: boats(yardId: "${here.yardId}") { items { id } }
                       b: boats(yardId: "${there.yardId}") { items { id } } }`;
      const { text, code } = await calls.graphql(query, { token: tokenOf('foreman') });
      expect(code).toBe('record.missing');
      expect(text).not.toContain(`${there.mark}-petrel`);
    });

    test('a cursor of another yard’s list opens no window into it', async () => {
      const { calls, there, tokenOf, at } = groundOf();
      const page = await calls.call('GET', at('readings?first=2', there), {
        token: tokenOf('foreman', there),
      });
      const cursor = z.string().parse(page.json.nextCursor);
      const { status, text } = await calls.call('GET', at(`readings?first=200&after=${cursor}`), {
        token: tokenOf('foreman'),
      });
      expect(status).toBe(200);
      expect(text).not.toContain(there.mark);
      expect(text).not.toContain(there.secret);
    });

    test('an Idempotency-Key repeats nobody else’s answer', async () => {
      const { calls, here, there, tokenOf, at } = groundOf();
      const begin = (side: typeof here) =>
        calls.call('POST', at('plan-runs', side), {
          token: tokenOf('foreman', side),
          headers: { 'idempotency-key': 'one-key-for-two' },
          body: { seed: 7 },
        });
      const theirs = await begin(there);
      const ours = await begin(here);
      expect([theirs.status, ours.status]).toEqual([202, 202]);
      expect(ours.json.id).not.toBe(theirs.json.id);
    });
  });
}
