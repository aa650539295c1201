import { Injectable } from '@nestjs/common';
import { Database } from '../database/database.ts';
import { hashOf, newToken } from './token.ts';
import type { Caller } from './viewer.ts';

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

  /** Whose session it is, and who that is in the yard, if one is named and they are its member. */
  async callerOf(token: string | undefined, yardId?: string): Promise<Caller> {
    if (token === undefined) return {};
    const session = await this.database.outsideYards((tx) =>
      tx.session.findFirst({
        where: { tokenHash: hashOf(token), expiresAt: { gt: new Date() } },
        select: {
          account: {
            select: {
              id: true,
              email: true,
              name: true,
              members: { where: { yardId: yardId ?? '' } },
            },
          },
        },
      }),
    );
    if (!session) return {};
    const { id: accountId, email, name, members } = session.account;
    const account = { accountId, email, name };
    const [member] = members;
    if (members.length === 0) return { account };
    const viewer = { accountId, yardId: member.yardId, memberId: member.id, roles: member.roles };
    return { account, viewer };
  }
}
