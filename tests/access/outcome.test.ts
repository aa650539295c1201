import { describe, expect, it } from 'vitest';
import { crew, foreman, members, owner, row } from '#access/rule.ts';
import { type Caller, type Named, outcome } from './outcome.ts';

const base: Caller = { isKnown: true, member: null, scopes: null, lacksFactor: false };
const here = (...roles: ('foreman' | 'builder' | 'owner')[]): Caller => ({
  ...base,
  member: { yardId: 'here', roles },
});
const boat = row('boats.get', ['Query.boat'], members, 'boat', 'read');
const update = row('boats.update', ['Mutation.updateBoat'], foreman, 'boat', 'manage');
const records: Named[] = ['own', 'neighbour’s', 'other’s', 'missing'];
const all = (rule: typeof boat, caller: Caller, yardId = 'here') =>
  records.map((record) => outcome(rule, caller, { yardId, record }));

describe('what the table says of a call', () => {
  it('of a record that all members may read', () => {
    const missing = ['not-found', 'not-found'];
    expect(all(boat, here('builder'))).toEqual(['let in', 'let in', ...missing]);
    expect(all(boat, here('owner'))).toEqual(['let in', 'not-found', ...missing]);
    expect(all(boat, here('owner', 'builder'))).toEqual(['let in', 'let in', ...missing]);
  });

  it('of another yard nothing, whatever the role', () => {
    for (const caller of [here('foreman'), base]) {
      expect(new Set(all(update, caller, 'there'))).toEqual(new Set(['not-found']));
    }
    expect(new Set(all(boat, { ...base, isKnown: false }, 'there'))).toEqual(
      new Set(['unauthenticated']),
    );
  });

  it('forbids before it looks for the record', () => {
    expect(new Set(all(update, here('builder')))).toEqual(new Set(['forbidden']));
    expect(new Set(all(boat, { ...here('foreman'), lacksFactor: true }))).toEqual(
      new Set(['forbidden']),
    );
  });

  it('of a key as far as its scope reaches, and never of an account', () => {
    const key = (...scopes: ('read' | 'work' | 'manage')[]): Caller => ({
      ...here('foreman'),
      scopes,
    });
    const target = { yardId: 'here', record: 'own' } as const;
    expect(outcome(update, key('work'), target)).toBe('forbidden');
    expect(outcome(update, key('manage'), target)).toBe('let in');
    expect(outcome(boat, key('work'), target)).toBe('let in');
    const me = row('session.me', ['GET me'], 'signed-in', 'account', null);
    expect(outcome(me, key('manage'), { yardId: null, record: 'nothing' })).toBe('forbidden');
    expect(outcome(me, base, { yardId: null, record: 'nothing' })).toBe('let in');
  });

  it('of what anyone may', () => {
    const health = row('health', ['GET health'], 'anyone', 'service', null);
    const nobody = { ...base, isKnown: false };
    expect(outcome(health, nobody, { yardId: null, record: 'nothing' })).toBe('let in');
    const mine = row('my-boats', ['Query.myBoats'], owner, 'yard', 'read');
    const ready = row('ready', ['Query.ready'], crew, 'yard', 'read');
    const target = { yardId: 'here', record: 'nothing' } as const;
    expect(outcome(mine, here('foreman'), target)).toBe('forbidden');
    expect(outcome(ready, here('owner'), target)).toBe('forbidden');
  });
});
