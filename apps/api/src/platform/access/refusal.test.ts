import { describe, expect, it } from 'vitest';
import { crew, foreman, members, owner, type May, type Scope } from '#access/rule.ts';
import type { Role } from '#planning/yard/people.ts';
import { admitted, refusalOf } from './refusal.ts';
import { type Caller, seesOf } from './viewer.ts';

const account = { accountId: 'a', email: 'a@yard.test', name: 'A', sessionId: 's' };
const viewer = (...roles: Role[]) => ({
  accountId: 'a',
  yardId: 'y',
  memberId: 'm',
  roles,
  sees: seesOf(roles),
});
const nobody: Caller = { by: null };
const signedIn: Caller = { by: 'session', account };
const member = (...roles: Role[]): Caller => ({ by: 'cookie', account, viewer: viewer(...roles) });
const key = (keyScopes: Scope[], ...roles: Role[]): Caller => ({
  by: 'key',
  keyScopes,
  viewer: viewer(...roles),
});

const codeFor = (
  may: May,
  caller: Caller,
  { scope = 'read', lacksSecondFactor = false }: Partial<Lacking> = {},
): string | undefined => refusalOf({ may, scope }, { caller, lacksSecondFactor })?.code;

interface Lacking {
  readonly scope: Scope | null;
  readonly lacksSecondFactor: boolean;
}

describe('why somebody may not', () => {
  it('is never anything where anyone may', () => {
    for (const caller of [nobody, signedIn, member('owner'), key([], 'owner')]) {
      expect(codeFor('anyone', caller)).toBeUndefined();
    }
  });

  it('is that nobody is signed in, or only a program', () => {
    expect(codeFor('signed-in', nobody)).toBe('access.sign-in');
    expect(codeFor('signed-in', signedIn)).toBeUndefined();
    expect(codeFor('signed-in', key(['manage'], 'foreman'))).toBe('access.scope');
    expect(codeFor(members, nobody)).toBe('access.sign-in');
  });

  it('is, in a yard of others, the same words as in one that does not exist', () => {
    const strangers = [signedIn, { by: 'key', keyScopes: ['manage'] } as const];
    for (const caller of strangers) {
      const refusal = refusalOf(
        { may: foreman, scope: 'read' },
        { caller, lacksSecondFactor: false },
      );
      expect(refusal).toMatchObject({ code: 'record.missing', message: 'There is no such yard.' });
    }
  });

  it('is the role', () => {
    expect(codeFor(foreman, member('builder', 'owner'))).toBe('access.role');
    expect(codeFor(crew, member('owner'))).toBe('access.role');
    expect(codeFor(crew, member('builder'))).toBeUndefined();
    expect(codeFor(owner, member('foreman'))).toBe('access.role');
    expect(codeFor(members, member())).toBe('access.role');
  });

  it('is a second factor that the yard asks for, before anything is said of roles', () => {
    const lacking = { lacksSecondFactor: true };
    expect(codeFor(crew, member('foreman'), lacking)).toBe('access.second-factor');
    expect(codeFor(foreman, member('owner'), lacking)).toBe('access.second-factor');
    expect(codeFor('signed-in', signedIn, lacking)).toBeUndefined();
  });

  it('is a scope that the key lacks, or that no key can have', () => {
    expect(codeFor(crew, key(['read'], 'builder'), { scope: 'work' })).toBe('access.scope');
    expect(codeFor(crew, key(['work'], 'builder'), { scope: 'work' })).toBeUndefined();
    expect(codeFor(crew, key(['work'], 'builder'), { scope: 'read' })).toBeUndefined();
    expect(codeFor(foreman, key(['manage'], 'foreman'), { scope: null })).toBe('access.scope');
    // A key does what its member may, and no more.
    expect(codeFor(foreman, key(['manage'], 'builder'), { scope: 'manage' })).toBe('access.role');
  });
});

describe('what a row lets somebody see', () => {
  it('is what it gives to the roles they hold', () => {
    const seen = (may: May, caller: Caller) => admitted({ may }, caller).viewer?.sees;
    expect(seen(members, member('owner'))).toBe('own');
    expect(seen(members, member('owner', 'builder'))).toBe('all');
    expect(seen(owner, member('owner', 'foreman'))).toBe('own');
    expect(seen('signed-in', signedIn)).toBeUndefined();
  });
});
