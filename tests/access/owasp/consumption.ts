import { describe, expect, test } from 'vitest';
import type { YardInput } from '#planning/yard/yard.ts';
import { smallYard } from '../../support/small-yard.ts';
import { traceOf } from '../walk/traces.ts';
import type { GroundOf } from './ground.ts';

/** What the service takes over from others: whole yard files, and tables of the weather. */
export function consumption(groundOf: GroundOf): void {
  describe('API10:2023 Unsafe Consumption of APIs', () => {
    const hostile: [what: string, change: (yard: YardInput) => unknown][] = [
      ['a field that nobody asked for', (yard) => ({ ...yard, secondFactorRequired: false })],
      ['an account for one of its people', (yard) => withPerson(yard, { accountId: 'x' })],
      ['an id that leads elsewhere', (yard) => ({ ...yard, id: '../other' })],
      ['an id in capitals', (yard) => ({ ...yard, id: 'IMPORTED' })],
      ['a number without end', (yard) => ({ ...yard, horizonDays: 1e308 })],
      ['a number that is text', (yard) => ({ ...yard, horizonDays: '30' })],
      ['a zone that is none', (yard) => ({ ...yard, timeZone: '../../etc/localtime' })],
      ['a wage below nothing', (yard) => withPerson(yard, { hourlyCost: -1 })],
      [
        'a boat of nobody there',
        (yard) => ({ ...yard, boats: [{ id: 'a', name: 'A', owner: 'x' }] }),
      ],
      [
        'two things of one id',
        (yard) => ({ ...yard, skills: [...(yard.skills ?? []), ...(yard.skills ?? [])] }),
      ],
      ['a list in the place of an object', () => []],
    ];

    test.each(hostile)('a yard file with %s is refused whole', async (_what, change) => {
      const { calls, world } = groundOf();
      const body = change(smallYard('imported'));
      const { status } = await calls.call('POST', 'yards', { token: world.stranger.token, body });
      expect(status).toBe(422);
      const { owner } = world.database;
      const id = { in: ['imported', 'IMPORTED', '../other'] };
      expect(await owner.yard.count({ where: { id } })).toBe(0);
      expect(await owner.member.count({ where: { yardId: id } })).toBe(0);
    });

    test('a key that would change every object is an error', async () => {
      const { calls, world } = groundOf();
      const text = JSON.stringify(smallYard('polluted'));
      for (const key of ['__proto__', 'constructor']) {
        const body = text.replace('{', `{"${key}":{"prototype":{"isAdmin":true},"isAdmin":true},`);
        const { status } = await calls.call('POST', 'yards', { token: world.stranger.token, body });
        expect([key, status]).toEqual([
          key,
          expect.toSatisfy((is: number) => [400, 422].includes(is)),
        ]);
      }
      expect(Reflect.get({}, 'isAdmin')).toBeUndefined();
    });

    test('a file of a yard that is there changes nothing of it', async () => {
      const { calls, world, there } = groundOf();
      const before = await traceOf(world.database, there.yardId);
      const body = { ...smallYard(there.yardId), people: [], boats: [] };
      const told = await calls.call('POST', 'yards', { token: world.stranger.token, body });
      expect([told.status, told.code]).toEqual([409, 'record.exists']);
      expect(await traceOf(world.database, there.yardId)).toEqual(before);
    });

    test('a file makes nobody a member but who sends it, whatever addresses it names', async () => {
      const { calls, world, here } = groundOf();
      const { owner } = world.database;
      const file = smallYard('named');
      const victim = `ines@${here.mark}.test`;
      const people = (file.people ?? []).map((person) => ({ ...person, email: victim }));
      const body = { ...file, people: people.slice(0, 1), boats: [] };
      const told = await calls.call('POST', 'yards', { token: world.stranger.token, body });
      const joined = await owner.member.findMany({
        where: { yardId: 'named', accountId: { not: null } },
        select: { accountId: true },
      });
      expect(told.status < 300 || told.status === 422).toBe(true);
      expect(joined.map(({ accountId }) => accountId)).not.toContain(here.people.foreman.accountId);
    });

    test('names are given back as they came, as data and not as a page or formula', async () => {
      const { calls, tokenOf, at } = groundOf();
      const token = tokenOf('foreman');
      for (const [id, name] of [
        ['page', '<script>alert(1)</script>'],
        ['formula', '=HYPERLINK("https://lure.example")'],
      ]) {
        const made = await calls.call('POST', at('skills'), { token, body: { id, name } });
        expect(made.json.name).toBe(name);
        expect(made.headers).toMatchObject({
          'content-type': expect.stringContaining('application/json') as string,
          'x-content-type-options': 'nosniff',
        });
      }
    });

    const weather = { from: '2026-11-30T00:00:00Z', source: 'invented' };
    test.each([
      ['more hours than there are', { celsius: Array.from({ length: 9_601 }, () => 10) }],
      ['no hour', { celsius: [] }],
      ['a temperature of another unit', { celsius: [283.15 + 100] }],
      ['a hole', { celsius: [10, null, 10] }],
      ['text', { celsius: ['10'] }],
      ['more humidity than there is', { celsius: [10], humidity: [101] }],
      ['humidity of other hours', { celsius: [10, 11], humidity: [50] }],
      ['a moment that is none', { celsius: [10], from: '2026-02-30T00:00:00Z' }],
    ])('an outdoor table with %s is refused, and the old one stays', async (_what, change) => {
      const { calls, tokenOf, at } = groundOf();
      const token = tokenOf('foreman');
      const before = await calls.call('GET', at('outdoor'), { token });
      const body = { ...weather, ...change };
      const { status } = await calls.call('PUT', at('outdoor'), { token, body });
      expect(status).toBe(422);
      expect((await calls.call('GET', at('outdoor'), { token })).text).toBe(before.text);
    });
  });
}

function withPerson({ people = [], ...yard }: YardInput, change: object): unknown {
  return { ...yard, people: people.map((person) => ({ ...person, ...change })) };
}
