import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { passwordMatches } from '../../platform/access/password.ts';
import { Sessions } from '../../platform/access/sessions.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type { Me, Session, SignIn } from './session.contract.ts';

@Injectable()
export class SessionService {
  constructor(
    private readonly database: Database,
    private readonly sessions: Sessions,
  ) {}

  async signIn({ email, password }: SignIn): Promise<Session> {
    const account = await this.database.outsideYards((tx) =>
      tx.account.findUnique({ where: { email: email.toLowerCase() } }),
    );
    const matches = await passwordMatches(account?.passwordHash ?? null, password);
    if (!account || !matches) throw new DomainError('access.credentials');
    const { token, expiresAt } = await this.sessions.open(account.id);
    return { token, expiresAt: expiresAt.toISOString() };
  }

  async signOut(token: string | undefined): Promise<void> {
    if (token !== undefined) await this.sessions.close(token);
  }

  me({ accountId }: Account): Promise<Me> {
    return this.database.outsideYards(async (tx) => {
      const account = await tx.account.findUniqueOrThrow({
        where: { id: accountId },
        include: { members: { include: { yard: true }, orderBy: { yardId: 'asc' } } },
      });
      const memberships = account.members.map(({ yardId, yard, id, roles }) => ({
        yardId,
        yard: yard.name,
        memberId: id,
        roles,
      }));
      return { email: account.email, name: account.name, memberships };
    });
  }
}
