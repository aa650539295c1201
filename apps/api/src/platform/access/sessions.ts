import { Injectable } from '@nestjs/common';
import { Database } from '../database/database.ts';
import { hashOf, newToken } from './token.ts';
import type { Account, Viewer } from './viewer.ts';

const lifetimeMs = 14 * 24 * 60 * 60 * 1000;

/** Sessions, and who a token or a membership makes the caller. */
@Injectable()
export class Sessions {
  constructor(private readonly database: Database) {}

  /** A new session; the token is known to nobody else. */
  async open(accountId: string): Promise<{ token: string; expiresAt: Date }> {
    const token = newToken();
    const expiresAt = new Date(Date.now() + lifetimeMs);
    await this.database.outsideYards((tx) =>
      tx.session.create({ data: { tokenHash: hashOf(token), accountId, expiresAt } }),
    );
    return { token, expiresAt };
  }

  async close(token: string): Promise<void> {
    await this.database.outsideYards((tx) =>
      tx.session.deleteMany({ where: { tokenHash: hashOf(token) } }),
    );
  }

  async accountOf(token: string | undefined): Promise<Account | undefined> {
    if (token === undefined) return undefined;
    const session = await this.database.outsideYards((tx) =>
      tx.session.findFirst({
        where: { tokenHash: hashOf(token), expiresAt: { gt: new Date() } },
        select: { account: { select: { id: true, email: true, name: true } } },
      }),
    );
    if (!session) return undefined;
    const { id, email, name } = session.account;
    return { accountId: id, email, name };
  }

  /** Nobody in a yard that the account is no member of, whether the yard exists or not. */
  async viewerOf(account: Account, yardId: string): Promise<Viewer | undefined> {
    const { accountId } = account;
    const member = await this.database.outsideYards((tx) =>
      tx.member.findFirst({ where: { yardId, accountId }, select: { id: true, roles: true } }),
    );
    return member ? { accountId, yardId, memberId: member.id, roles: member.roles } : undefined;
  }
}
