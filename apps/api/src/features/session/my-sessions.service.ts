import { Inject, Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { ClosedSessions, MySession } from './session.contract.ts';

/** Where an account is signed in. */
@Injectable()
export class MySessionsService {
  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** Those that are neither over nor idle for too long, the newest first. */
  list({ accountId, sessionId }: Account, page: PageRequest): Promise<Page<MySession>> {
    const now = Date.now();
    const live = {
      expiresAt: { gt: new Date(now) },
      lastSeenAt: { gt: new Date(now - this.config.sessionIdleMinutes * 60_000) },
    };
    const { where, ...rest } = newestArgs(page);
    return this.database.asAccount(accountId, async (tx) => {
      const rows = await tx.session.findMany({
        where: { accountId, ...live, ...where },
        omit: { tokenHash: true },
        ...rest,
      });
      return toNewestPage(rows, page, (row) => show(row, sessionId));
    });
  }

  async close({ accountId }: Account, id: string): Promise<void> {
    const { count } = isUuid(id)
      ? await this.database.asAccount(accountId, (tx) =>
          tx.session.deleteMany({ where: { id, accountId } }),
        )
      : { count: 0 };
    if (count === 0) throw new DomainError('record.missing', `There is no session "${id}".`);
  }

  closeOthers({ accountId, sessionId }: Account): Promise<ClosedSessions> {
    return this.#closeAll(accountId, { not: sessionId });
  }

  /** The one that asks too. */
  closeEvery({ accountId }: Account): Promise<ClosedSessions> {
    return this.#closeAll(accountId);
  }

  /** Sign-ins half done are ended as well. */
  #closeAll(accountId: string, id?: { readonly not: string }): Promise<ClosedSessions> {
    return this.database.asAccount(accountId, async (tx) => {
      // First: the sign-in that is just using one up opens its session before this goes on, or not at all.
      await tx.pendingSignIn.deleteMany({ where: { accountId } });
      const { count } = await tx.session.deleteMany({
        where: { accountId, ...(id === undefined ? {} : { id }) },
      });
      return { closed: count };
    });
  }
}

interface Row {
  readonly id: string;
  readonly agent: string;
  readonly createdAt: Date;
  readonly lastSeenAt: Date;
  readonly expiresAt: Date;
  readonly secondFactorAt: Date | null;
}

function show(row: Row, currentId: string): MySession {
  const { id, agent, createdAt, lastSeenAt, expiresAt, secondFactorAt } = row;
  return {
    id,
    agent,
    createdAt: createdAt.toISOString(),
    lastSeenAt: lastSeenAt.toISOString(),
    expiresAt: expiresAt.toISOString(),
    secondFactorAt: secondFactorAt?.toISOString() ?? null,
    current: id === currentId,
  };
}
