import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { DomainError } from '#kernel/error.ts';
import { setCaller, tokenOfCall, yardIdOf } from './caller.ts';
import { type AccessRule, accessRuleKey } from './rules.ts';
import { Sessions } from './sessions.ts';

/** Stands before every handler of REST and GraphQL; what has no rule is refused. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly sessions: Sessions,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const rule = this.reflector.get<AccessRule | undefined>(accessRuleKey, context.getHandler());
    if (!rule) throw new DomainError('access.role');
    if (rule.kind === 'public') return true;

    const yardId = rule.kind === 'roles' ? yardIdOf(context) : undefined;
    const caller = await this.sessions.callerOf(tokenOfCall(context), yardId);
    if (!caller.account) throw new DomainError('access.sign-in');
    if (rule.kind === 'roles') {
      if (!caller.viewer) throw new DomainError('record.missing', 'There is no such yard.');
      const held = caller.viewer.roles;
      if (!held.some((role) => rule.roles.includes(role))) throw new DomainError('access.role');
    }
    setCaller(context, caller);
    return true;
  }
}
