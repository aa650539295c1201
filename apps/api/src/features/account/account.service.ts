import { Injectable } from '@nestjs/common';
import { csrfOf } from '../../platform/access/csrf.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Me, MePatch } from './account.contract.ts';

/** An account and the yards it is in, read by itself. */
@Injectable()
export class AccountService {
  constructor(private readonly database: Database) {}

  /** `token`: of the session that asks. */
  me(account: Account, token: string): Promise<Me> {
    return this.database.asAccount(account.accountId, (tx) => find(tx, account, token));
  }

  update(account: Account, token: string, revision: number, patch: MePatch): Promise<Me> {
    return this.database.asAccount(account.accountId, async (tx) => {
      const where = { id: account.accountId, revision };
      changedOne(await tx.account.updateMany({ where, data: defined(patch) }));
      return find(tx, account, token);
    });
  }
}

async function find(tx: Tx, { accountId, sessionId }: Account, token: string): Promise<Me> {
  const { email, name, units, temperature, revision } = await tx.account.findUniqueOrThrow({
    where: { id: accountId },
  });
  const session = await tx.session.findUnique({ where: { id: sessionId } });
  const members = await tx.member.findMany({
    where: { accountId },
    include: { yard: true },
    orderBy: { yardId: 'asc' },
  });
  return {
    id: accountId,
    email,
    name,
    units,
    temperature,
    csrf: csrfOf(token),
    secondFactorAt: session?.secondFactorAt?.toISOString() ?? null,
    memberships: members.map(({ yardId, yard, id, roles }) => ({
      yardId,
      yard: yard.name,
      memberId: id,
      roles,
      secondFactorRequired: yard.secondFactorRequired,
    })),
    revision,
  };
}

/** Only the fields that were sent. */
function defined<T extends object>(patch: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(patch).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
