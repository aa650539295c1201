import { reaches, whoseOf } from '#access/judge.ts';
import type { Rule } from '#access/rule.ts';
import { DomainError } from '#kernel/error.ts';
import type { Known } from './callers.ts';
import type { Caller } from './viewer.ts';

/**
 * Why somebody may not do what the row is about; null where they may. A yard of others is refused
 * before anything is said of roles, in the words of a yard that does not exist.
 */
export function refusalOf(
  rule: Pick<Rule, 'may' | 'scope'>,
  { caller, lacksSecondFactor }: Pick<Known, 'caller' | 'lacksSecondFactor'>,
): DomainError | null {
  if (rule.may === 'anyone') return null;
  if (caller.by === null) return new DomainError('access.sign-in');
  if (rule.may === 'signed-in') {
    return caller.account ? null : new DomainError('access.scope', 'No program key may do this.');
  }
  const { viewer, keyScopes } = caller;
  if (!viewer) return new DomainError('record.missing', 'There is no such yard.');
  if (lacksSecondFactor) return new DomainError('access.second-factor');
  if (whoseOf(rule.may, viewer.roles) === null) return new DomainError('access.role');
  if (keyScopes === undefined || reaches(keyScopes, rule.scope)) return null;
  const needed = rule.scope === null ? 'No program key may do this' : `It needs "${rule.scope}"`;
  return new DomainError('access.scope', `${needed}.`);
}

/** The caller with what the row lets them see: an owner's row shows a foreman the own boats only. */
export function admitted(rule: Pick<Rule, 'may'>, caller: Caller): Caller {
  const { viewer } = caller;
  if (!viewer || typeof rule.may === 'string') return caller;
  return { ...caller, viewer: { ...viewer, sees: whoseOf(rule.may, viewer.roles) ?? 'own' } };
}
