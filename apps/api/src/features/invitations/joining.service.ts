import { randomUUID } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import {
  acceptInvitation,
  invitationOf,
  type OpenInvitation,
  signInAccount,
} from '#persistence/access/lookups.ts';
import { hashOf } from '#persistence/access/token.ts';
import { isoOf } from '#persistence/rows.ts';
import { assertNoDemoAddress } from '../../platform/access/public-demo.ts';
import { hashPassword } from '../../platform/access/password.ts';
import type { Origin } from '../../platform/access/origin.ts';
import { Sessions } from '../../platform/access/sessions.ts';
import type { Caller } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import { refuse } from '../soundness/soundness.service.ts';
import type {
  InvitationAcceptance,
  InvitationPreview,
  InvitationToken,
  Joining,
} from './joining.contract.ts';
import { openedLink } from './mailed-link.ts';
import { newAccountOf, superfluousFields } from './new-account.ts';

/** What the holder of a link can do, who need not be known. */
@Injectable()
export class JoiningService {
  constructor(
    private readonly database: Database,
    private readonly sessions: Sessions,
    private readonly limits: SignInLimits,
    @Inject(configToken) private readonly config: Config,
  ) {}

  async preview(input: InvitationToken, { address }: Origin): Promise<InvitationPreview> {
    const { token } = openedLink(input.token, this.config.secretKey);
    const { yardName, memberName, email, expiresAt } = await this.#open(token, address);
    return {
      yard: yardName,
      person: memberName,
      expiresAt: isoOf(expiresAt),
      needsEmail: email === null,
    };
  }

  /** Joins the account that is signed in, or else one that it makes. */
  async accept(
    { account, by }: Caller,
    input: InvitationAcceptance,
    from: Origin,
  ): Promise<Joining> {
    if (by === 'key') throw new DomainError('access.scope', 'A program key joins nobody.');
    const { token, mailed } = openedLink(input.token, this.config.secretKey);
    const invitation = await this.#open(token, from.address);
    const tokenHash = hashOf(token);
    if (account) {
      refuse(superfluousFields(input));
      await this.database.asAccount(account.accountId, (tx) =>
        join(tx, invitation, tokenHash, account.accountId),
      );
      return shown(invitation, null);
    }
    const { email, ...fresh } = newAccountOf(invitation, input);
    assertNoDemoAddress(email, this.config);
    await this.#assertFree(email, from.address);
    const accountId = randomUUID();
    const passwordHash = await hashPassword(fresh.password);
    const emailProvedAt = mailed ? new Date() : null;
    const data = { id: accountId, email, name: fresh.name, passwordHash, emailProvedAt };
    await this.database.asAccount(accountId, async (tx) => {
      await tx.account.create({ data });
      await join(tx, invitation, tokenHash, accountId);
    });
    const { agent } = from;
    return shown(invitation, await this.sessions.open(accountId, { agent, secondFactor: false }));
  }

  async #open(token: string, address: string): Promise<OpenInvitation> {
    await this.limits.attempt(null, address);
    const invitation = await this.database.lookUp((db) => invitationOf(db, hashOf(token)));
    if (!invitation) throw new DomainError('access.link');
    await this.limits.succeeded(null, address);
    return invitation;
  }

  /** Whoever holds a link learns that an e-mail is taken, a few times, and nothing of who has it. */
  async #assertFree(email: string, address: string): Promise<void> {
    await this.limits.attempt(null, address);
    const taken = await this.database.lookUp((db) => signInAccount(db, email));
    if (!taken) return this.limits.succeeded(null, address);
    throw new DomainError('record.exists', 'No new account can be made with this e-mail.', {
      cure: 'If you have an account, sign in first and open the link again; or take another e-mail.',
    });
  }
}

/** In the transaction that may have made the account: an account that joins nothing is not made. */
async function join(
  tx: Tx,
  { yardId, yardName, memberName }: OpenInvitation,
  tokenHash: Uint8Array<ArrayBuffer>,
  accountId: string,
): Promise<void> {
  if (await acceptInvitation(tx, tokenHash, accountId)) return;
  const own = await tx.member.findFirst({ where: { yardId, accountId }, select: { name: true } });
  if (own) {
    throw new DomainError(
      'record.exists',
      `Your account is in ${yardName} already, as ${own.name}.`,
      {
        cure: `Nothing is left to do; if you are to be ${memberName} instead, ask the foreman.`,
      },
    );
  }
  if (!(await invitationOf(tx, tokenHash))) throw new DomainError('access.link');
  throw new DomainError('record.exists', `${memberName} of ${yardName} has an account already.`, {
    cure: 'Ask the foreman.',
  });
}

const shown = (
  { yardId, yardName, memberId, memberName }: OpenInvitation,
  session: Joining['session'],
): Joining => ({ yardId, yard: yardName, personId: memberId, person: memberName, session });
