import { describe, expect, it } from 'vitest';
import { reaches, whoseOf } from './judge.ts';
import { crew, foreman, members, owner, type Scope, scopes } from './rule.ts';

describe('whose records a row gives', () => {
  it('is the most that one of the roles gives', () => {
    expect(whoseOf(members, ['owner'])).toBe('own');
    expect(whoseOf(members, ['owner', 'builder'])).toBe('all');
    expect(whoseOf(members, ['builder', 'owner'])).toBe('all');
    expect(whoseOf(owner, ['foreman', 'owner'])).toBe('own');
  });

  it('is nobody’s for other roles, or none', () => {
    expect(whoseOf(foreman, ['builder', 'owner'])).toBeNull();
    expect(whoseOf(crew, ['owner'])).toBeNull();
    expect(whoseOf(owner, ['foreman'])).toBeNull();
    expect(whoseOf(members, [])).toBeNull();
  });
});

describe('how far a key reaches', () => {
  it('is as far as its widest scope, each holding those before it', () => {
    const table = scopes.map((held) => scopes.map((needed) => reaches([held], needed)));
    expect(table).toEqual([
      [true, false, false],
      [true, true, false],
      [true, true, true],
    ]);
    expect(reaches(['read', 'work'], 'work')).toBe(true);
    expect(reaches([], 'read')).toBe(false);
  });

  it('is nowhere that no key may go', () => {
    const all: readonly Scope[] = scopes;
    expect(reaches(all, null)).toBe(false);
  });
});
