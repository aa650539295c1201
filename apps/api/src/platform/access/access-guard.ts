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

    const account = await this.sessions.accountOf(tokenOfCall(context));
    if (!account) throw new DomainError('access.sign-in');
    if (rule.kind === 'account') {
      setCaller(context, { account });
      return true;
    }

    const yardId = yardIdOf(context);
    const viewer = yardId === undefined ? undefined : await this.sessions.viewerOf(account, yardId);
    if (!viewer) throw new DomainError('record.missing', 'There is no such yard.');
    if (!viewer.roles.some((role) => rule.roles.includes(role)))
      throw new DomainError('access.role');
    setCaller(context, { account, viewer });
    return true;
  }
}
